/** Does the boot fit the foot: sizes, the room in the bare shell, and hot spots with what was done about them. */
import { otherSide } from '../frame.ts';
import type { Side } from '../frame.ts';
import { markedMm, mondopoint, shellGapBand } from '../maths/shell.ts';
import type { GapBand } from '../maths/shell.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import type { Settings } from '../record/settings.ts';
import { slot } from '../record/slots.ts';
import { mm } from '../units.ts';
import type { Mm } from '../units.ts';
import { isReady } from './readings.ts';
import type { FitPlan, HotSpot, Problem } from './shape.ts';
import type { SideNow } from './side.ts';
import { mmWords } from './words.ts';

export interface FitSight {
  readonly plan: FitPlan;
  readonly problems: readonly Problem[];
}

type Assessed = FactOf<'assessed'>;

export function assessed<K extends 'footLengthMm' | 'shellGapMm' | 'hotSpots'>(
  log: Log,
  side: Side,
  field: K,
): NonNullable<Assessed[K]> | null {
  const state = log.now(slot.assessed(side, field));
  return state.is === 'one' ? (state.value as NonNullable<Assessed[K]>) : null;
}

/** The shop's bands, ascending; over the last a shell is too long. */
export const bandsOf = (settings: Settings): readonly GapBand[] => [
  { name: 'too short', toMm: mm(settings.shellShortMm) },
  { name: 'race', toMm: mm(settings.shellRaceMm) },
  { name: 'performance', toMm: mm(settings.shellPerformanceMm) },
  { name: 'comfort', toMm: mm(settings.shellComfortMm) },
];

/** Hot spots noted on this side, each worked once the bench worked the shell there, knowing of it. */
function hotSpots(log: Log, side: Side): HotSpot[] {
  const noted = log.heads(slot.assessed(side, 'hotSpots')).at(-1);
  const worked = log.live('shell.worked').filter((fact) => fact.side === side);
  return (assessed(log, side, 'hotSpots') ?? []).map((spot) => ({
    spot,
    worked: worked.some(
      (work) => work.spot.toLowerCase() === spot.toLowerCase() && log.knew(work.id, noted!),
    ),
  }));
}

const mondoOf = ({ boot }: SideNow): Mm | null => boot && markedMm(boot.mondo);

function problemsOf(log: Log, side: Side, { band, shellGapMm, hotSpots: spots }: FitPlan): Problem[] {
  const problem = (code: string, field: string, text: string): Problem => ({
    fact: log.heads(slot.assessed(side, field)).at(-1)!,
    side,
    code,
    text,
  });
  const gap = shellGapMm === null ? '' : mmWords(shellGapMm);
  const open = isReady(log.now(slot.ready(side, 'shell'))) ? spots.filter(({ worked }) => !worked) : [];
  return [
    ...(band === 'too short'
      ? [problem('shell-short', 'shellGapMm', `The ${side} shell leaves ${gap} behind the heel: too short.`)]
      : []),
    ...(band === 'too long'
      ? [problem('shell-long', 'shellGapMm', `The ${side} shell leaves ${gap} behind the heel: too long.`)]
      : []),
    ...open.map(({ spot }) =>
      problem(
        'hot-spot-open',
        'hotSpots',
        `The ${side} shell counts as settled, and nobody worked the hot spot noted at: ${spot}.`,
      ),
    ),
  ];
}

export function fitOf(log: Log, now: SideNow, settings: Settings): FitSight {
  const { side } = now;
  const [footMm, otherMm] = [side, otherSide(side)].map((one) => assessed(log, one, 'footLengthMm'));
  const pair = footMm && otherMm ? mondopoint(footMm, otherMm) : null;
  const mondoMm = mondoOf(now);
  const shellGapMm = assessed(log, side, 'shellGapMm');
  const band = shellGapMm === null ? null : shellGapBand(shellGapMm, bandsOf(settings));
  const plan: FitPlan = {
    mondoMm,
    footMm: footMm ?? null,
    pairMm: pair?.lengthMm ?? null,
    wantedMm: pair?.nearestMm ?? null,
    overMm: mondoMm !== null && footMm ? mm(mondoMm - footMm) : null,
    shellGapMm,
    band: shellGapMm === null ? null : (band?.name ?? 'too long'),
    hotSpots: hotSpots(log, side),
  };
  return { plan, problems: problemsOf(log, side, plan) };
}
