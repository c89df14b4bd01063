/** Where facts of the left and of the right stand between each other is no matter: their bases say what was known. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plan, SIDES } from '../../core/index.ts';
import type { Fact, Side } from '../../core/index.ts';
import { check } from './check.ts';
import { entry, honestIntent } from './sessions.ts';
import type { Intent } from './sessions.ts';
import { story } from './story.ts';

const perSide = (side: Side) =>
  fc
    .array(
      honestIntent.filter(({ kind, payload }) => 'side' in payload || kind === 'struck'),
      { maxLength: 12, size: 'max' },
    )
    .map((intents) =>
      intents.map((i): Intent => ('side' in i.payload ? { ...i, payload: { ...i.payload, side } } : i)),
    );

/** The facts of one side, on top of what both have; a strike reaches no further than these. */
function ofOne(side: Side, intents: readonly Intent[], shared: readonly Fact[]): Fact[] {
  const own: Fact[] = [];
  for (const intent of intents) {
    if (intent.kind === 'struck' && !own.length) continue;
    const made = entry(
      intent,
      intent.kind === 'struck' ? own : [...shared, ...own],
      `${side}-${own.length}`,
      's-1',
    );
    own.push(made);
  }
  return own;
}

describe('facts of two sides', () => {
  it('may stand in any order between each other: the plan of each side is the same', () => {
    const some = fc.tuple(
      perSide('left'),
      perSide('right'),
      fc.array(fc.boolean(), { minLength: 24, maxLength: 24 }),
    );
    check(120, some, ([left, right, turns]) => {
      const shared = story({ basis: true }).facts;
      const sides = { left: ofOne('left', left, shared), right: ofOne('right', right, shared) };
      const mixed: Fact[] = [...shared];
      const [ls, rs] = [[...sides.left], [...sides.right]];
      for (const leftFirst of turns) {
        const next = (leftFirst ? ls.shift() : rs.shift()) ?? ls.shift() ?? rs.shift();
        if (next) mixed.push(next);
      }
      const plans = [
        plan([...shared, ...sides.left, ...sides.right]),
        plan([...shared, ...sides.right, ...sides.left]),
        plan(mixed),
      ];
      expect(mixed).toHaveLength(shared.length + sides.left.length + sides.right.length);
      for (const side of SIDES)
        for (const one of plans.slice(1)) expect(one.sides[side]).toEqual(plans[0]!.sides[side]);
    });
  });
});
