/** One calculation asked for by itself, and the list of all. */
import { catalogue, misfitOf } from '../core/index.ts';
import type { Calculation } from '../core/index.ts';
import { inputsOf, outputsOf } from './calc-fields.ts';
import type { Field } from './calc-fields.ts';

/** An answer, or one line that names what is wrong and what is wanted. */
export type Answer =
  { readonly ok: true; readonly is: object | null } | { readonly ok: false; readonly error: string };

const BY_NAME: ReadonlyMap<string, Calculation> = new Map(
  Object.values(catalogue()).flatMap((group) => Object.entries(group)),
);

const unknown = (name: string): string =>
  `${name}: is no calculation; npm run -s calc -- --list names them all`;

type Issue = Parameters<typeof misfitOf>[0];

/** A word that tells variants apart is one of a list, like any other. */
const choice = (issue: Issue): Issue =>
  issue.code === 'invalid_union' && 'options' in issue
    ? { ...issue, code: 'invalid_value', values: issue.options as string[] }
    : issue;

/** @param json the input as parsed JSON */
export function calculate(name: string, json: unknown): Answer {
  const calculation = BY_NAME.get(name);
  if (!calculation) return { ok: false, error: unknown(name) };
  const parsed = calculation.input.safeParse(json);
  if (parsed.success) return { ok: true, is: calculation.run(parsed.data as never) };
  const { field, wants } = misfitOf(choice(parsed.error.issues[0]!), json);
  return { ok: false, error: [name, field, wants].filter(Boolean).join(': ') };
}

/** `npm run -s calc -- NAME INPUT`, as a shell takes it. */
export const exampleCall = (name: string, { example }: Calculation): string =>
  `npm run -s calc -- ${name} '${JSON.stringify(example.input)}'`;

const lines = (label: string, fields: readonly Field[]): string[] => {
  const width = Math.max(...fields.map(({ path }) => path.length));
  return fields.map(({ path, wants, means }, i) =>
    `  ${(i === 0 ? label : '').padEnd(8)} ${(path || 'all').padEnd(width)}  ${[wants, means].filter(Boolean).join('; ')}`.trimEnd(),
  );
};

function described(name: string, calculation: Calculation): string {
  return [
    `${name}: ${calculation.means}`,
    ...lines('takes', inputsOf(calculation)),
    ...lines('gives', outputsOf(calculation)),
    `  formula  ${calculation.formula}`,
    `  source   ${calculation.source}`,
    `  example  ${exampleCall(name, calculation)}`,
    `           ${JSON.stringify(calculation.example.output)}`,
  ].join('\n');
}

/** All calculations in words, or one; an error for a name that none has. */
export function listing(name?: string): { readonly ok: boolean; readonly text: string } {
  if (name !== undefined) {
    const calculation = BY_NAME.get(name);
    return calculation
      ? { ok: true, text: described(name, calculation) }
      : { ok: false, text: unknown(name) };
  }
  const all = [...BY_NAME].map(([key, one]) => described(key, one));
  return { ok: true, text: all.join('\n\n') };
}
