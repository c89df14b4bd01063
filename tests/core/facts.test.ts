import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { admit, KIND_NAMES, KINDS, parseLenient, parseStrict, plan, readSession } from '../../core/index.ts';
import type { Fact, Writer } from '../../core/index.ts';
import { story, Story } from '../helpers/facts.ts';

const reading = (change: object): object => {
  const s = new Story();
  s.read('left', 12, 6);
  return { ...s.facts[0]!, ...change };
};

describe('facts', () => {
  it.each([
    [{ medialMm: 900 }, 'medialMm', 'at most 60'],
    [{ medialMm: -1 }, 'medialMm', 'at least 0'],
    [{ medialMm: '12' }, 'medialMm', 'must be a number'],
    [{ medialMm: Infinity }, 'medialMm', 'must be a number'],
    [{ side: 'both' }, 'side', 'left, right'],
    [{ widestAt: undefined }, 'widestAt', 'front, middle, rear'],
    [{ posture: { parallel: true } }, 'posture.straightRunStance', 'is missing'],
    [{ at: 'this morning' }, 'at', 'ISO 8601'],
    [{ id: 'a b' }, 'id', 'letters, digits'],
    [{ by: { role: 'measuring' } }, 'by.station', 'is missing'],
    [{ basis: 'f1' }, 'basis', 'must be a list'],
  ])('[FAC-1] %o names %s', (change, field, wants) => {
    for (const parse of [parseStrict, parseLenient]) {
      const parsed = parse(reading(change));
      expect(parsed.ok).toBe(false);
      if (!parsed.ok)
        expect(parsed.misfit).toMatchObject({ field, wants: expect.stringContaining(wants) as string });
    }
  });

  it('[FAC-2] the gate takes known fields only, a reader keeps the rest', () => {
    const more = reading({
      mood: 'sunny',
      posture: { ...(reading({}) as { posture: object }).posture, toes: 'in' },
    });
    expect(parseStrict(more)).toMatchObject({ ok: false, misfit: { field: 'posture.toes' } });
    expect(parseLenient(more)).toEqual({ ok: true, fact: more });
  });

  it('[FAC-2] a kind that nobody knows yet is kept, and changes nothing', () => {
    const s = story();
    s.read('left', 12, 6);
    const stranger = {
      id: 'x1',
      kind: 'moon.seen',
      at: '2027-01-01T10:00:00Z',
      by: { role: 'desk', station: 'd' },
      phase: 'full',
    };
    expect(parseStrict(stranger)).toMatchObject({ ok: false, misfit: { field: 'kind' } });
    expect(parseLenient(stranger)).toMatchObject({ ok: true });
    expect(plan([...s.facts, stranger])).toEqual(plan(s.facts));
  });

  it.each([
    [{ contact: 'lateral', pressure: 'press' }, 'lateralMm'],
    [{ contact: 'both', pressure: 'graze', lateralMm: 0 }, 'medialMm'],
    [{ contact: 'lateral', lateralMm: 0 }, 'pressure'],
    [{ lower: { medialMm: 3, lateralMm: 2, heightMm: 90, contact: 'medial' } }, 'lower.medialMm'],
  ])('[FAC-3] a touch that does not read 0, or says not how hard: %o', (change, field) => {
    expect(parseStrict(reading(change))).toMatchObject({ ok: false, misfit: { field } });
  });

  it('[FAC-4] a newer version is refused with both numbers', () => {
    const parsed = parseLenient(reading({ v: 3 }));
    expect(parsed).toMatchObject({ ok: false, misfit: { field: 'v' } });
    if (!parsed.ok) expect(parsed.misfit.wants).toMatch(/version 3 .* knows 1/);
  });

  it.each([
    [[], 'must be an object'],
    [{ format: 'fibula-session/2', facts: [] }, 'format: must be fibula-session/1'],
    [{ format: 'fibula-session/1' }, 'facts'],
    [
      { format: 'fibula-session/1', facts: [reading({ id: 'f7', medialMm: 900 })] },
      'fact f7 (cuff.read): medialMm: must be at most 60',
    ],
    [
      { format: 'fibula-session/1', facts: [reading({ id: 'f7' }), reading({ id: 'f7' })] },
      'fact f7 (cuff.read): id: is there twice',
    ],
    [{ format: 'fibula-session/1', facts: [null] }, 'fact number 1: must be an object'],
    [{ format: 'fibula-session/1', facts: [{ id: 'f1', kind: 'new.kind' }] }, 'fact f1 (new.kind): at'],
  ])('[FAC-5] a file it cannot use: %#', (json, says) => {
    const read = readSession(json);
    expect(read).toMatchObject({ ok: false, error: expect.stringContaining(says) as string });
    if (!read.ok) expect(read.error).not.toContain('\n');
  });
});

it('[FAC-1] no kind has a field that the envelope needs', () => {
  for (const kind of KIND_NAMES) {
    const { shape } = KINDS[kind].payload(z.strictObject) as unknown as { shape: object };
    expect(
      Object.keys(shape).filter((field) => ['id', 'kind', 'at', 'by', 'basis', 'v'].includes(field)),
    ).toEqual([]);
  }
});

describe('admission', () => {
  const floor: Writer = { station: 'measuring-1', roles: ['measuring'] };
  const desk: Writer = { station: 'desk-1', roles: ['desk'] };
  const known = (facts: readonly Fact[]) => new Map(facts.map((fact) => [fact.id, fact]));
  const base = story().facts;
  const next = (change: object): object => ({ ...reading({ id: 'r1' }), ...change });

  it('[ADM-1] takes an honest reading', () => {
    expect(admit(known(base), next({}), floor)).toMatchObject({ ok: true, already: false });
  });

  it.each([
    [next({}), { station: 'other', roles: ['measuring'] } as Writer, 'identity', 'by.station'],
    [next({}), { station: 'measuring-1', roles: ['bench'] } as Writer, 'identity', 'by.role'],
    [
      next({ by: { role: 'bench', station: 'b' } }),
      { station: 'b', roles: ['bench'] } as Writer,
      'permission',
      'kind',
    ],
    [next({ medialMm: 900 }), floor, 'shape', 'medialMm'],
    [next({ kind: 'leg.known' }), floor, 'shape', 'mLegMm'],
  ])('[ADM-1] refuses the wrong writer: %#', (fact, writer, code, field) => {
    expect(admit(known(base), fact, writer)).toMatchObject({ ok: false, refusal: { code, field } });
  });

  it('[ADM-1] the server’s kinds are the server’s alone', () => {
    const forged = {
      id: 'k',
      kind: 'response.known',
      at: base[0]!.at,
      by: { role: 'desk', station: 'desk-1' },
      side: 'left',
      k: 1,
      sd: 0.1,
      pairs: 3,
    };
    expect(admit(known(base), forged, desk)).toMatchObject({ ok: false, refusal: { code: 'permission' } });
  });

  it('[ADM-2] the same fact again is no fault, another under its id is', () => {
    const there = known([...base, next({}) as Fact]);
    const { medialMm, ...rest } = next({}) as { medialMm: number };
    expect(admit(there, { ...rest, medialMm }, floor)).toMatchObject({ ok: true, already: true });
    expect(admit(there, next({ medialMm: 13 }), floor)).toMatchObject({
      ok: false,
      refusal: { code: 'id-taken', fact: 'r1' },
    });
  });

  it('[ADM-3] a session begins with its opening, once', () => {
    const opening = base[0]!;
    expect(admit(known([]), next({}), floor)).toMatchObject({ ok: false, refusal: { code: 'opening' } });
    expect(admit(known([]), opening, desk)).toMatchObject({ ok: true });
    expect(admit(known(base), { ...opening, id: 'o2' }, desk)).toMatchObject({
      ok: false,
      refusal: { code: 'opening' },
    });
  });

  it('[ADM-4] who may strike what', () => {
    const server = {
      id: 'k',
      kind: 'response.known',
      at: base[0]!.at,
      by: { role: 'server', station: 'server' },
      side: 'left',
      k: 1,
      sd: 0.1,
      pairs: 3,
    } as Fact;
    const there = known([...base, next({}) as Fact, server]);
    const strike = (fact: string, role: 'desk' | 'measuring' | 'bench') =>
      admit(
        there,
        { id: 's', kind: 'struck', at: base[0]!.at, by: { role, station: 'one' }, fact, reason: 'undo' },
        { station: 'one', roles: [role] },
      );
    expect(strike('r1', 'measuring')).toMatchObject({ ok: true });
    expect(strike('r1', 'desk')).toMatchObject({ ok: true });
    expect(strike('r1', 'bench')).toMatchObject({
      ok: false,
      refusal: { code: 'permission', field: 'fact' },
    });
    expect(strike('nowhere', 'desk')).toMatchObject({ ok: false, refusal: { code: 'unknown-target' } });
    expect(strike('k', 'desk')).toMatchObject({ ok: false, refusal: { code: 'permission' } });
    expect(strike(base[0]!.id, 'desk')).toMatchObject({ ok: false, refusal: { code: 'permission' } });
  });
});
