/**
 * What this shop works by: its own values in the place of the defaults, and the figures that have no default. A
 * session takes them with it when it is opened, so that its numbers never change under it.
 */
import { z } from 'zod';
import { ENTERED_SETTINGS, parseStrict, RISING, SETTINGS } from '../core/index.ts';
import type { EnteredName, Fact, SettingName } from '../core/index.ts';
import type { Outside } from './outside.ts';
import type { Db } from './schema.ts';

export type ShopValues = Readonly<Partial<Record<SettingName | EnteredName, number>>>;

const bounded = ({ min, max, unit }: { min: number; max: number; unit: string }) => {
  const wanted = `must be ${min} to ${max}${unit === '1' ? '' : ` ${unit}`}`;
  return z.number(wanted).min(min, wanted).max(max, wanted).optional();
};

const Values = z.strictObject(
  Object.fromEntries(
    Object.entries({ ...SETTINGS, ...ENTERED_SETTINGS }).map(([name, setting]) => [name, bounded(setting)]),
  ) as Record<SettingName | EnteredName, z.ZodOptional<z.ZodNumber>>,
);

/** As it comes over HTTP: a name that is missing goes back to its default, or to not entered. */
export const ShopBody = Values.superRefine((values, context) => {
  const inUse = (name: SettingName) => values[name] ?? SETTINGS[name].default;
  for (const row of RISING)
    for (const [i, higher] of row.entries()) {
      const lower = row[i - 1];
      if (lower === undefined || inUse(lower) < inUse(higher)) continue;
      // The one that was set is at fault, not the default beside it.
      const [name, wanted] =
        values[higher] === undefined
          ? [lower, `must be less than ${higher}, ${inUse(higher)}`]
          : [higher, `must be more than ${lower}, ${inUse(lower)}`];
      context.addIssue({ code: 'custom', path: [name], message: `${wanted} ${SETTINGS[name].unit}` });
    }
});

const KEY = 'shop.settings';
const ENTERED = 'shop.settings.entered';

/** Who has last changed a setting: the desk's name, ms since 1970, and what stood before; null for none or the default. */
export interface Entered {
  readonly by: string;
  readonly atMs: number;
  readonly was: number | null;
}

export class ShopSettings {
  readonly #get;
  readonly #set;
  readonly #both;
  readonly #outside: Outside;

  constructor(db: Db, outside: Outside) {
    this.#get = db.prepare<[string], string>('SELECT value FROM meta WHERE key = ?').pluck();
    this.#set = db.prepare<[string, string]>(
      'INSERT INTO meta (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
    );
    this.#both = db.transaction((entered: Readonly<Record<string, Entered>>, values: ShopValues) => {
      this.#set.run(ENTERED, JSON.stringify(entered));
      this.#set.run(KEY, JSON.stringify(values));
    });
    this.#outside = outside;
  }

  get values(): ShopValues {
    const text = this.#get.get(KEY);
    // Of an older program's names, those that are still known: the rest are defaults again.
    const kept = text === undefined ? {} : (JSON.parse(text) as Record<string, unknown>);
    const known = Object.entries(kept).filter(([name, value]) => Values.safeParse({ [name]: value }).success);
    return Object.fromEntries(known) as ShopValues;
  }

  /** By name, of those that were changed since this is noted. */
  get entered(): Readonly<Record<string, Entered>> {
    const text = this.#get.get(ENTERED);
    return text === undefined ? {} : (JSON.parse(text) as Record<string, Entered>);
  }

  /** Replaces them all, for the sessions opened from now on. `by`: the desk that does it. */
  set(values: ShopValues, by: string): void {
    const before = this.values;
    const atMs = this.#outside.now();
    const changed = [...new Set([...Object.keys(before), ...Object.keys(values)])] as (keyof ShopValues)[];
    const now = changed
      .filter((name) => before[name] !== values[name])
      .map((name) => [name, { by, atMs, was: before[name] ?? null }] as const);
    this.#both({ ...this.entered, ...Object.fromEntries(now) }, values);
  }

  /** What a session that is opened now pins; nothing where the shop works by the defaults. */
  pinned(): readonly Fact[] {
    const { values } = this;
    if (Object.keys(values).length === 0) return [];
    const { now, randomBytes } = this.#outside;
    const parsed = parseStrict({
      id: `s${Buffer.from(randomBytes(12)).toString('hex')}`,
      kind: 'settings.used',
      at: new Date(now()).toISOString(),
      by: { station: SERVER.station, role: 'server' },
      ...values,
    });
    if (!parsed.ok) throw new Error(`Settings make no fact: ${JSON.stringify(parsed)}`);
    return [parsed.fact];
  }
}

/** Under whom the server writes facts of its own. */
export const SERVER = { station: 'server', roles: ['server'] } as const;
