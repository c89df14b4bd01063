/** One calculation as it can be asked for by itself: plain values in, plain values out, and what both mean. */
import type { z } from 'zod';

/** A unit (`1`: a pure number; empty: words, or yes and no), and what the value, its sign or its null means. */
export type Given = readonly [unit: string, means: string];

export interface Calculation {
  /** What it answers, in one sentence without its full stop. */
  readonly means: string;
  /** A strict object; each number in it carries its bounds and, as `unit`, its unit. */
  readonly input: z.ZodType;
  /**
   * What comes out, by its path: `toe.medialMm`, `jobs[].id`. A path stands for all that lies below it.
   */
  readonly gives: Readonly<Record<string, Given>>;
  readonly formula: string;
  readonly source: string;
  /** Its numbers are rounded to three decimals. */
  readonly example: { readonly input: object; readonly output: unknown };
  /** The answer to a value that `input` has parsed. */
  readonly run: (input: never) => object | null;
}

/** The calculations of one file of maths, by the name of the function that does each. */
export type Calculations = Readonly<Record<string, Calculation>>;

interface Entry<S extends z.ZodType> extends Omit<Calculation, 'input' | 'example' | 'run'> {
  readonly input: S;
  readonly example: { readonly input: z.input<S> & object; readonly output: unknown };
  readonly run: (input: z.output<S>) => object | null;
}

/** The entry as it is, with its example and its run held to its own input. */
export const calculation = <S extends z.ZodType>(entry: Entry<S>): Calculation => entry;

/** The same for toe and heel. */
export const ofZones = (gives: Readonly<Record<string, Given>>): Readonly<Record<string, Given>> =>
  Object.fromEntries(
    ['toe', 'heel'].flatMap((zone) =>
      Object.entries(gives).map(([path, given]) => [`${zone}.${path}`, given] as const),
    ),
  );

/** Sources that many share. */
export const TRIGONOMETRY = 'plane trigonometry, exact; checked against rigid bodies in tests/outside';
export const DEFINITION = 'a definition';
