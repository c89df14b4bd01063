/** What is personal in a log, and what a log without it still says. */
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  admit,
  KIND_NAMES,
  KINDS,
  LIMIT,
  PERSONAL,
  personalIn,
  plan,
  sameButPersonal,
  withoutPersonal,
} from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import { DUAL, story, Story } from '../helpers/facts.ts';
import { jsonOf } from '../helpers/from-schema.ts';
import type { Json } from '../helpers/from-schema.ts';
import { check } from '../properties/check.ts';
import { someSession } from '../properties/sessions.ts';

/** Paths of the texts in which anything may be written: those with no shorter limit than the longest text has. */
function freeTexts(json: Json, path: string): string[] {
  const options = json.anyOf ?? json.oneOf;
  if (options) return options.flatMap((option) => freeTexts(option, path));
  if (json.items) return freeTexts(json.items, path);
  if (json.properties)
    return Object.entries(json.properties).flatMap(([field, inner]) =>
      freeTexts(inner, path === '' ? field : `${path}.${field}`),
    );
  return json.type === 'string' && json.maxLength === LIMIT.text ? [path] : [];
}

describe('personal', () => {
  it.each(KIND_NAMES)('[ERA-1] is every free text of %s', (kind) => {
    const schema = KINDS[kind].payload(z.strictObject) as unknown as z.ZodType;
    expect([...new Set(freeTexts(jsonOf(schema), ''))].sort()).toEqual([...(PERSONAL[kind] ?? [])].sort());
  });

  it('[ERA-1] is seen in a text, in a list of texts and in a text in the place of a number', () => {
    const told = new Story().open();
    told.add('released.unfit', { what: ['loose pivots', 'the one of Quint'], acknowledgedBy: 'owner' });
    told.add('assessed', { side: 'left', forefoot: 3 });
    told.add('assessed', { side: 'left', forefoot: 'as his brother' });
    expect(told.facts.map(personalIn)).toEqual([null, null, 'what', null, 'forefoot']);
    const erased = withoutPersonal(told.facts);
    expect(erased[2]).toMatchObject({ what: ['erased f3', 'erased f3'] });
    expect(JSON.stringify(erased)).not.toMatch(/Quint|brother|loose/);
    expect(erased.map(personalIn)).toEqual([null, null, null, null, null]);
  });
});

/** Sentences may quote what was said; all else is compared. */
const numbersOf = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (key, inner: unknown) =>
      key === 'text' || key === 'because' || key === 'wants' ? undefined : inner,
    ),
  );

describe('erasing', () => {
  it('[ERA-2] leaves a footbed the footbed it was: what rested on it is current, and stale when it was', () => {
    const told = story(DUAL, DUAL);
    const note = (side: 'left' | 'right', text: string) =>
      told.add('ready.checked', { side, item: 'footbed', outcome: 'done', note: text });
    note('left', 'cork of Quint');
    note('right', 'cork of Quint');
    told.read('left', 14, 6);
    told.read('right', 14, 6);
    note('left', 'cork of Quint');
    note('right', 'carbon of Quint');
    const before = plan(told.facts);
    const erased = withoutPersonal(told.facts);
    expect(JSON.stringify(erased)).not.toMatch(/Quint/);
    expect(before.sides.left.cuff.reading?.stale).toBe(false);
    expect(before.sides.right.cuff.reading?.stale).toBe(true);
    expect(numbersOf(plan(erased))).toEqual(numbersOf(before));
  });

  it('[ERA-2] changes no number of the plan of any session', () => {
    check(100, someSession, (facts) => {
      const erased = withoutPersonal(facts);
      expect(erased.map(personalIn).filter(Boolean)).toEqual([]);
      expect(withoutPersonal(erased)).toEqual(erased);
      facts.forEach((fact, i) => expect(sameButPersonal(fact, erased[i]!)).toBe(true));
      expect(numbersOf(plan(erased))).toEqual(numbersOf(plan(facts)));
    });
  });
});

describe('an erased session', () => {
  const told = new Story().open();
  told.add('home.checked', { note: 'Quint rang' });
  const stored = withoutPersonal(told.facts);
  const known = Object.assign(new Map(stored.map((fact) => [fact.id, fact])), { erased: true });
  const desk = { station: 'desk-1', roles: ['desk'] } as const;
  const late = (note: string): Fact => ({ ...told.facts[2]!, id: 'late', note }) as Fact;

  it('[ERA-3] takes no personal text, and says which field it is', () => {
    expect(admit(known, late('Quint rang again'), desk)).toMatchObject({
      ok: false,
      refusal: { code: 'erased', field: 'note', fact: 'late' },
    });
    expect(admit(known, withoutPersonal([late('Quint rang again')])[0], desk)).toMatchObject({
      ok: true,
      already: false,
    });
  });

  it('[ERA-3] knows a fact again that is offered as it was written; another under its id is refused', () => {
    for (const fact of told.facts.filter((fact) => fact.by.role === 'desk'))
      expect(admit(known, fact, desk)).toMatchObject({ ok: true, already: true });
    const other = { ...told.facts[2]!, at: '2027-01-09T09:00:00+01:00' };
    expect(admit(known, other, desk)).toMatchObject({ ok: false, refusal: { code: 'id-taken' } });
    const open = new Map(stored.map((fact) => [fact.id, fact]));
    expect(admit(open, told.facts[2], desk)).toMatchObject({ ok: false, refusal: { code: 'id-taken' } });
  });
});
