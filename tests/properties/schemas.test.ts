/** Every kind of fact: taken as its example has it, refused with the name of the field wherever that is broken. */
import { describe, expect, it } from 'vitest';
import { admit, KIND_NAMES, KINDS, parseLenient, parseStrict } from '../../core/index.ts';
import type { Fact, Kind, Misfit, Parsed } from '../../core/index.ts';
import { EXAMPLES } from './examples.ts';
import { AT, POSTURE } from './story.ts';

type Tree = Record<string, unknown>;

const envelope = (kind: Kind): Tree => ({
  id: 'f7',
  kind,
  at: AT,
  by: { role: KINDS[kind].roles[0], station: 'tablet-3', initials: 'mk' },
  basis: ['f1', 'f2'],
  v: 1,
});
const full = (kind: Kind): Tree => ({ ...envelope(kind), ...EXAMPLES[kind].payload });

/** The same with one place changed; `undefined` takes it out. */
function changed(tree: Tree, path: string, value: unknown): Tree {
  const copy = structuredClone(tree);
  const steps = path.split('.');
  const last = steps.pop()!;
  const at = steps.reduce<Tree>((inner, step) => inner[step] as Tree, copy);
  if (value === undefined) delete at[last];
  else at[last] = value;
  return copy;
}

/** Dotted paths of all leaves (texts, numbers, yes and no) or of all objects, lists looked through. */
function paths(value: unknown, want: 'leaves' | 'objects', path = ''): string[] {
  const down = (value: object) =>
    Object.entries(value).flatMap(([key, inner]) => paths(inner, want, path ? `${path}.${key}` : key));
  if (typeof value !== 'object' || value === null) return want === 'leaves' ? [path] : [];
  return want === 'objects' && !Array.isArray(value) ? [path, ...down(value)] : down(value);
}

const valueAt = (tree: Tree, path: string): unknown =>
  path.split('.').reduce<unknown>((inner, step) => (inner as Tree)[step], tree);

/** Texts of free choice: any word fits, so that only their type and length can be wrong. */
const FREE = new Set(
  'ticket clientRef linkedTo notes note reason model tag spot id bootsAre reference language label arch station initials override irreversible what forefoot forwardLeanPos shinCurve hotSpots'.split(
    ' ',
  ),
);

function wrongFor(path: string, is: unknown, mixed: boolean): unknown[] {
  const field = path.split('.').findLast((step) => !/^\d+$/.test(step))!;
  const always = [null, {}, [[]]];
  if (typeof is === 'number') return [...always, 1e9, -1e9, ...(mixed ? [] : ['12', true])];
  if (typeof is === 'boolean') return [...always, 7, ...(mixed ? [] : ['yes'])];
  const free = FREE.has(field) && path !== 'id';
  return [...always, 'x'.repeat(2001), ...(mixed ? [] : [7, true]), ...(free ? [] : ['no such word'])];
}

const misfit = (parsed: Parsed<unknown>): Misfit => {
  if (parsed.ok) throw new Error('was taken');
  return parsed.misfit;
};

describe.each(KIND_NAMES)('%s', (kind) => {
  const { payload, optional, mixed = [] } = EXAMPLES[kind];
  const fact = full(kind);

  it('is taken in full by the gate and by a reader, unchanged', () => {
    for (const parse of [parseStrict, parseLenient]) expect(parse(fact)).toEqual({ ok: true, fact });
  });

  it('is taken with nothing but what it needs', () => {
    let bare: Tree = fact;
    // Inner fields first: with an outer one gone there is nothing to reach into.
    for (const path of ['basis', 'v', 'by.initials', ...[...optional].sort((a, b) => b.length - a.length)])
      bare = changed(bare, path, undefined);
    for (const parse of [parseStrict, parseLenient]) expect(parse(bare)).toEqual({ ok: true, fact: bare });
  });

  it('[ADM-1] is admitted from a station whose role may write it, and from no other role', () => {
    const target = {
      ...full('sole.set'),
      id: 'f3',
      by: { role: 'measuring', station: 'tablet-1' },
    } as unknown as Fact;
    const known = new Map<string, Fact>(kind === 'session.opened' ? [] : [['f3', target]]);
    for (const role of ['desk', 'measuring', 'bench', 'server'] as const) {
      const by = { role, station: 'tablet-3' };
      const verdict = admit(known, { ...fact, by }, { station: 'tablet-3', roles: [role] });
      const may = (KINDS[kind].roles as readonly string[]).includes(role);
      if (may) expect(verdict).toMatchObject({ ok: true, already: false });
      else
        expect(verdict).toMatchObject({
          ok: false,
          refusal: { code: 'permission', field: 'kind', fact: 'f7' },
        });
    }
    for (const by of [
      { role: KINDS[kind].roles[0], station: 'another' },
      { role: KINDS[kind].roles[0], station: 'tablet-3' },
    ])
      expect(
        admit(
          known,
          { ...fact, by },
          { station: 'tablet-3', roles: by.station === 'another' ? [...KINDS[kind].roles] : [] },
        ),
      ).toMatchObject({ ok: false, refusal: { code: 'identity' } });
  });

  it('[FAC-1] is refused, with the field’s name, where a needed field is missing', () => {
    const missing = [...paths(fact, 'leaves'), ...paths(fact, 'objects').filter(Boolean)].filter(
      (path) =>
        !/(^|\.)\d+$/.test(path) &&
        path !== 'kind' &&
        !['v', 'basis', 'by.initials', ...optional].includes(path),
    );
    expect(missing.length).toBeGreaterThanOrEqual(3);
    for (const path of missing)
      for (const parse of [parseStrict, parseLenient])
        expect(misfit(parse(changed(fact, path, undefined))), path).toMatchObject({ field: path });
  });

  it('[FAC-1] is refused, with the field’s name, where a value is of another type, out of bounds or no word it knows', () => {
    for (const path of paths(fact, 'leaves').filter((p) => p !== 'kind' && p !== 'v'))
      for (const wrong of wrongFor(path, valueAt(fact, path), mixed.includes(path)))
        for (const parse of [parseStrict, parseLenient]) {
          const found = misfit(parse(changed(fact, path, wrong)));
          expect(found.field, `${path} as ${JSON.stringify(wrong)}`.slice(0, 80)).toBe(path);
          expect(found.wants.length).toBeGreaterThan(5);
        }
  });

  it('[FAC-2] with a field that is not known is refused by the gate and kept by a reader, at every depth', () => {
    for (const path of paths(fact, 'objects')) {
      const strange = path ? `${path}.strange` : 'strange';
      const more = changed(fact, strange, { deep: [1, 'two'] });
      expect(misfit(parseStrict(more)).field).toBe(strange);
      expect(parseLenient(more)).toEqual({ ok: true, fact: more });
    }
  });

  it('[FAC-4] of a newer version is refused with both numbers', () => {
    for (const parse of [parseStrict, parseLenient]) {
      const found = misfit(parse({ ...fact, v: 9 }));
      expect(found.field).toBe('v');
      expect(found.wants).toMatch(/9.*1/);
    }
  });

  it('names no field twice: the envelope’s and its own are apart', () => {
    for (const field of Object.keys(payload))
      expect(['id', 'kind', 'at', 'by', 'basis', 'v']).not.toContain(field);
  });
});

describe('a cuff reading', () => {
  const reading = (more: object) => ({ ...full('cuff.read'), ...more });

  it('of 900 mm is a typing error, not a leg; 60 mm is the most', () => {
    expect(misfit(parseStrict(reading({ medialMm: 900 })))).toEqual({
      field: 'medialMm',
      wants: 'must be at most 60 (is 900)',
    });
    expect(parseStrict(reading({ medialMm: 60 })).ok).toBe(true);
    expect(misfit(parseStrict(reading({ lateralMm: -0.5 }))).field).toBe('lateralMm');
  });

  it('[FAC-3] reads 0 where it touches, above and below, and says how hard', () => {
    const touching = { contact: 'lateral', lateralMm: 0, pressure: 'press' };
    expect(parseStrict(reading(touching)).ok).toBe(true);
    expect(misfit(parseStrict(reading({ ...touching, lateralMm: 2 }))).field).toBe('lateralMm');
    expect(misfit(parseStrict(reading({ ...touching, contact: 'both' }))).field).toBe('medialMm');
    expect(misfit(parseStrict(reading({ ...touching, pressure: undefined }))).field).toBe('pressure');
    const lower = { medialMm: 3, lateralMm: 2, heightMm: 90, contact: 'medial' };
    expect(misfit(parseStrict(reading({ lower }))).field).toBe('lower.medialMm');
  });

  it('says how hard where only its lower height touches', () => {
    const lower = { medialMm: 0, lateralMm: 2, heightMm: 90, contact: 'medial' };
    expect(misfit(parseStrict(reading({ lower, pressure: undefined }))).field).toBe('pressure');
    expect(parseStrict(reading({ lower, pressure: 'graze' })).ok).toBe(true);
  });

  it('counts for a reader whatever a newer program adds to its posture', () => {
    const newer = reading({ posture: { ...POSTURE, strapOpen: false } });
    expect(parseLenient(newer)).toEqual({ ok: true, fact: newer });
  });
});

describe('what is no fact at all', () => {
  it.each([
    [null],
    [3],
    ['fact'],
    [[]],
    [{}],
    [{ kind: 'toString' }],
    [{ kind: '__proto__' }],
    [{ kind: 7 }],
  ])('%j', (value) => {
    for (const parse of [parseStrict, parseLenient])
      expect(misfit(parse(value)).wants.length).toBeGreaterThan(5);
  });

  it('of a kind that nobody knows yet is kept by a reader as an envelope, and refused by the gate', () => {
    const later = { ...envelope('paused'), kind: 'boot.scanned', points: [1, 2] };
    expect(parseLenient(later)).toEqual({ ok: true, fact: later });
    expect(misfit(parseStrict(later)).field).toBe('kind');
    expect(misfit(parseLenient({ ...later, id: 'no good' })).field).toBe('id');
  });
});
