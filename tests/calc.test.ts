/** Every calculation by itself: none is missing, each does what it says, takes what it says and nothing else. */
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { catalogue, DEFAULT_SETTINGS, SETTINGS } from '../core/index.ts';
import type { Calculation, SettingName } from '../core/index.ts';
import { inputsOf } from '../server/calc-fields.ts';
import { calculate, listing } from '../server/calc.ts';
import { jsonOf, valuesOf } from './helpers/from-schema.ts';
import type { Json } from './helpers/from-schema.ts';
import { check, START } from './properties/check.ts';

const ALL: readonly (readonly [string, Calculation])[] = Object.values(catalogue()).flatMap((group) =>
  Object.entries(group),
);

/** Exported for other files of maths, and no calculation of the trade by itself. */
const HELPERS: Readonly<Record<string, string>> = {
  'normal.inverse2': 'linear algebra',
  'normal.logNormalCdf': 'normalCdf as the estimate sums it',
  'normal.normalHazard': 'its slope',
  'repeatability.meanOf': 'arithmetic',
  'repeatability.quotient': 'arithmetic',
  'repeatability.squaresAbout': 'arithmetic',
  'hardware.better': 'the order that settable goes by, of a function',
  'learned.isFarOff': 'a question of moveSeen',
  'learned.doubtOf': 'how measuredResponse weighs what is far off',
  'learned.spreadsOf': 'learnFrom’s prior, of the settings',
  'learned.together': 'arithmetic',
  'learned.ofModel': 'one step of learnFrom',
  'learned.Hierarchy': 'learnFrom, with its sums kept',
  'forecast.Forecaster': 'forecast, some runs at a time',
  'hours.momentAfter': 'the shop’s clock',
  'hours.workingMinutes': 'the shop’s clock',
  'period.besideOf': 'the calendar',
  'period.bucketFor': 'the calendar',
  'period.cut': 'the calendar',
  'period.dayOf': 'the calendar',
  'period.dayText': 'the calendar',
  'period.periodOf': 'the calendar',
  'study.studyOrder': 'an order, not a number',
  'study.studyResult': 'repeatability or gaugeStudy, as a study was taken',
  'worked.workedTurns': 'what the forecast learns from',
  'random.hashText': 'makes a stream of numbers, not a number',
  'random.randomStream': 'makes a stream of numbers, not a number',
};

describe('the catalogue', () => {
  it('has every function that core/maths exports, in its group, or the reason why not', async () => {
    const files = readdirSync('core/maths')
      .filter((name) => name.endsWith('.ts') && name !== 'catalogue.ts')
      .map((name) => name.slice(0, -3));
    const exported: string[] = [];
    for (const file of files) {
      const module = (await import(`../core/maths/${file}.ts`)) as Record<string, unknown>;
      for (const [name, value] of Object.entries(module))
        if (typeof value === 'function') exported.push(`${file}.${name}`);
    }
    const listed = Object.entries(catalogue()).flatMap(([group, of]) =>
      Object.keys(of).map((name) => `${group}.${name}`),
    );
    expect(exported.length).toBeGreaterThan(60);
    expect([...listed, ...Object.keys(HELPERS)].sort()).toEqual(exported.sort());
  });

  it('uses no name twice', () => {
    expect(new Set(ALL.map(([name]) => name)).size).toBe(ALL.length);
  });

  it('takes, where a setting is meant, its bounds and its default', () => {
    const same: readonly (readonly [string, string, SettingName])[] = [
      ['stance', 'rules?.errorMm?', 'kneeErrorMm'],
      ['stance', 'rules?.targetMm?', 'kneeTargetMm'],
      ['stance', 'rules?.slopeShare?', 'kneeSlopeShare'],
      ['stance', 'rules?.plateStepDeg?', 'plateStepDeg'],
      ['stance', 'rules?.secondLookDeg?', 'secondLookDeg'],
      ['stance', 'rules?.maxCantDeg?', 'maxCantDeg'],
      ['compareCants', 'maxDifferenceDeg?', 'maxDifferenceDeg'],
      ['learnedResponse', 'gapErrorMm?', 'gapErrorMm'],
      ['tiltAndOffset', 'gapErrorMm?', 'gapErrorMm'],
    ];
    for (const [name, path, setting] of same) {
      const { min, max, unit } = SETTINGS[setting];
      const field = inputsOf(ALL.find(([key]) => key === name)![1]).find((one) => one.path === path);
      expect(field?.wants, `${name} ${path}`).toBe(
        `${min} to ${max}${unit === '1' ? '' : ` ${unit}`}; left out: ${DEFAULT_SETTINGS[setting]}`,
      );
    }
  });
});

const rounded = (value: unknown): unknown => {
  if (typeof value === 'number') return Math.round(value * 1000) / 1000 + 0;
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, rounded(inner)]));
};

/** Dotted paths of all that is no object and no list; lists looked through, null and empty ones where they stand. */
function leaves(value: unknown, path = ''): { readonly path: string; readonly is: unknown }[] {
  const under = (name: string) => (path ? `${path}.${name}` : name);
  if (Array.isArray(value) && value.length > 0) return value.flatMap((one) => leaves(one, `${path}[]`));
  if (typeof value === 'object' && value !== null && !Array.isArray(value))
    return Object.entries(value).flatMap(([name, inner]) => leaves(inner, under(name)));
  return [{ path, is: value }];
}

/** Is a path told, by itself or by what it lies below? */
const told = (gives: Calculation['gives'], path: string): boolean =>
  Object.keys(gives).some((known) => path === known || new RegExp(`^${escaped(known)}(\\.|\\[)`).test(path));
const escaped = (text: string): string => text.replace(/[.[\]]/g, '\\$&');

function answered(name: string, input: unknown): object | null {
  const answer = calculate(name, input);
  if (!answer.ok) throw new Error(answer.error);
  return answer.is;
}

/** What a schema cannot say of two fields at once is put right: ends in order, places inside them, names that are there. */
function putRight(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(putRight);
  if (typeof value !== 'object' || value === null) return value;
  const is = Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [key, putRight(inner)]),
  ) as Record<string, never>;
  const sorted = (list: readonly number[]) => list.toSorted((a, b) => a - b);
  if ('minMm' in is && 'maxMm' in is) {
    const [min, max] = sorted([is['minMm']!, is['maxMm']!]) as [number, number];
    const stops = is['stopsMm'] as number[] | undefined;
    const inside = stops && { stopsMm: stops.map((at) => Math.min(max, Math.max(min, at))) };
    return { ...is, minMm: min, maxMm: max, ...inside };
  }
  if ('points' in is) {
    const points = is['points'] as { p: number; minutes: number }[];
    const [p, minutes] = [sorted(points.map((one) => one.p)), sorted(points.map((one) => one.minutes))];
    return { ...is, points: points.map((_, i) => ({ p: p[i], minutes: minutes[i] })) };
  }
  if ('bands' in is) {
    const places = sorted([...new Set((is['bands'] as { toMm: number }[]).map(({ toMm }) => toMm))]);
    return { ...is, bands: places.map((toMm, i) => ({ name: String(i), toMm })) };
  }
  if ('hands' in is && 'jobs' in is) {
    const stations = (is['hands'] as number[]).length;
    const tasks = (job: { tasks: { station: number }[] }) =>
      job.tasks.map((task) => ({ ...task, station: task.station % stations }));
    return {
      ...is,
      jobs: (is['jobs'] as { tasks: { station: number }[] }[]).map((job) => ({ ...job, tasks: tasks(job) })),
    };
  }
  // Many runs take long and tell no more.
  if ('runs' in is) return { ...is, runs: (is['runs'] % 20) + 1 };
  if (
    'hardware' in is &&
    'line' in is &&
    ((is['hardware'] as { factoryLeanDeg?: unknown }).factoryLeanDeg ?? null) === null
  )
    return { ...is, hardware: { ...(is['hardware'] as object), factoryLeanDeg: 0 } };
  return is;
}

describe.each(ALL)('%s', (name, calculation) => {
  const { example, gives } = calculation;
  const json = jsonOf(calculation.input);
  const inputs = valuesOf(json).map(putRight);

  it('gives the numbers of its example', () => {
    expect(example.output).not.toBeNull();
    expect(rounded(answered(name, example.input))).toEqual(example.output);
  });

  it('gives finite numbers under told names, for whatever lies in its bounds', () => {
    check(150, inputs, (input) => {
      const is = answered(name, input);
      if (is === null) return;
      for (const { path, is: value } of leaves(is)) {
        expect(told(gives, path), `${path} is not told`).toBe(true);
        if (typeof value === 'number') expect(Number.isFinite(value), `${path} is ${value}`).toBe(true);
        else expect(['string', 'boolean', 'object']).toContain(typeof value);
      }
    });
  });

  it('holds every bound, and names the field', () => {
    for (const { path, wrong } of beyond(json)) {
      // The example has every field, or a drawn input has.
      const input = withPlace(calculation, inputs, path);
      const broken = changed(input, path, wrong);
      const field = path.join('.');
      const answer = calculate(name, broken);
      expect(answer, `${field} as ${JSON.stringify(wrong)}`).toMatchObject({ ok: false });
      if (!answer.ok) expect(answer.error, JSON.stringify(wrong)).toContain(`${name}: ${field}: `);
    }
  });

  it('takes no field that it does not know, and misses those it needs', () => {
    expect(calculate(name, { ...example.input, strange: 1 })).toEqual({
      ok: false,
      error: `${name}: strange: is not a field of this kind`,
    });
    for (const field of json.required ?? []) {
      const { [field]: _, ...rest } = example.input as Record<string, unknown>;
      const answer = calculate(name, rest);
      expect(answer).toMatchObject({ ok: false });
      if (!answer.ok) expect(answer.error).toMatch(new RegExp(`^${name}: ${field}\\b.*\\(is missing\\)$`));
    }
    expect(calculate(name, 7)).toEqual({ ok: false, error: `${name}: must be an object (is 7)` });
  });

  it('says what it takes, gives, follows and comes from', () => {
    const { text } = listing(name);
    for (const line of [calculation.means, calculation.formula, calculation.source]) {
      expect(line).not.toBe('');
      expect(text).toContain(line);
    }
    expect(text).not.toMatch(/undefined|NaN|object Object/);
    expect(Object.keys(gives).length).toBeGreaterThan(0);
  });
});

type Path = readonly string[];

/** For each number, word and list of a schema a value beyond what it may be; list entries by their first. */
function beyond(json: Json, path: Path = []): { readonly path: Path; readonly wrong: unknown }[] {
  const options = json.anyOf ?? json.oneOf;
  if (options)
    return options
      .flatMap((one) => beyond(one, path))
      .filter(({ path: at }) => !options.some((o) => o.type === 'object') || at.length > path.length);
  if (json.enum ?? json.const) return [{ path, wrong: 'no such word' }];
  switch (json.type) {
    case 'number':
    case 'integer': {
      const far = Math.max(1, Math.abs(json.maximum! - json.minimum!)) * 1e-6;
      return [
        json.minimum! - far,
        json.maximum! + far,
        'a word',
        ...(json.type === 'integer' ? [0.5 + json.minimum!] : []),
      ].map((wrong) => ({ path, wrong }));
    }
    case 'string':
      return [{ path, wrong: 'x'.repeat(json.maxLength! + 1) }];
    case 'boolean':
      return [{ path, wrong: 'yes' }];
    case 'array':
      return [
        { path, wrong: { too: 'few' } },
        { path, wrong: Array.from({ length: json.maxItems! + 1 }, () => null) },
        ...beyond(json.items!, [...path, '0']),
      ];
    case 'object':
      return Object.entries(json.properties!).flatMap(([key, inner]) => beyond(inner, [...path, key]));
    default:
      return [];
  }
}

const has = (value: unknown, path: Path): boolean => {
  const [step, ...rest] = path;
  if (step === undefined) return true;
  return (
    typeof value === 'object' &&
    value !== null &&
    step in value &&
    has((value as Record<string, unknown>)[step], rest)
  );
};

function withPlace(calculation: Calculation, inputs: fc.Arbitrary<unknown>, path: Path): unknown {
  if (has(calculation.example.input, path)) return calculation.example.input;
  const [found] = fc.sample(
    inputs.filter((input) => has(input, path)),
    { seed: START, numRuns: 1 },
  );
  return found;
}

function changed(value: unknown, path: Path, to: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return to;
  if (Array.isArray(value)) return value.map((one, i) => (String(i) === step ? changed(one, rest, to) : one));
  const is = value as Record<string, unknown>;
  return { ...is, [step]: changed(is[step], rest, to) };
}

describe('the command', () => {
  const run = (...args: string[]) => {
    const { status, stdout, stderr } = spawnSync('npm', ['run', '-s', 'calc', '--', ...args], {
      encoding: 'utf8',
    });
    return { status, stdout, stderr };
  };

  it('answers in JSON', () => {
    const { status, stdout, stderr } = run('bias', '{"medialMm":12,"lateralMm":6}');
    expect({ status, is: JSON.parse(stdout), stderr }).toEqual({ status: 0, is: { biasMm: 6 }, stderr: '' });
  });

  it('lists all, and one', () => {
    const all = run('--list');
    expect(all.status).toBe(0);
    for (const [name] of ALL)
      expect(all.stdout).toContain(`\n${listing(name).text}\n`.slice(name === ALL[0]![0] ? 1 : 0));
    expect(run('--list', 'tilt')).toEqual({ status: 0, stdout: `${listing('tilt').text}\n`, stderr: '' });
  });

  it.each([
    ['a name that none has', ['bisa', '{}'], /^bisa: is no calculation; /],
    ['the same in a list', ['--list', 'bisa'], /^bisa: is no calculation; /],
    ['what is no JSON', ['bias', '{medial'], /^bias: the input is no JSON: /],
    [
      'a gap of 900 mm',
      ['bias', '{"medialMm":900,"lateralMm":6}'],
      /^bias: medialMm: must be at most 60 \(is 900\)$/m,
    ],
    [
      'an unknown choice',
      ['standHeight', '{"work":{"method":"saw"}}'],
      /^standHeight: work\.method: must be plate, plane \(is "saw"\)$/m,
    ],
    [
      'ends the wrong way round',
      ['marksBetween', '{"reach":{"minMm":2,"maxMm":1},"fromMm":0,"toMm":1}'],
      /^marksBetween: reach\.maxMm: must be at least minMm \(is 1\)$/m,
    ],
    ['no input', ['bias'], /^usage: /],
    ['nothing', [], /^usage: /],
  ])('%s gives one line and exit 2', (_, args, says) => {
    const { status, stdout, stderr } = run(...args);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toMatch(says);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  });
});
