/**
 * Cautions beside the step that needs them. Signal words by the definitions of ANSI Z535.4 and ISO 3864-2:
 * warning, could cause death or serious injury; caution, could cause minor or moderate injury; notice, practices
 * not related to injury.
 */
import { SIDES } from '../frame.ts';
import type { Scene } from './scene.ts';
import type { Caution, Step } from './shape.ts';

const DEFER =
  'This tool gives no binding release values and is no substitute for a certified technician, a clinician, the makers’ instructions or local rules.';

const CLINICIAN =
  'Pain, numbness, recent surgery or fracture, joint replacement or swelling: refer the skier to a clinician before any work.';

const ofCuff: readonly Omit<Caution, 'step'>[] = [
  {
    level: 'warning',
    text: 'A loose pivot bolt can let the cuff give way on snow: tighten both to the maker’s figure and check them before the boot is worn.',
  },
  {
    level: 'notice',
    text: 'Some thread-lockers crack shell plastics: use only what the boot’s maker allows.',
  },
];

const ofTravel: readonly Omit<Caution, 'step'>[] = [
  {
    level: 'caution',
    text: 'A longer slot weakens the shell and cannot be undone: only with the owner’s agreement, and never nearer to an edge than the maker allows.',
  },
  { level: 'notice', text: 'Reworked pivots can end the maker’s warranty: say so before the work.' },
];

const ofShell: readonly Omit<Caution, 'step'>[] = [
  {
    level: 'caution',
    text: 'Heat can burn skin with poor feeling, and grinding makes dust: no foot in a hot shell, eyes and lungs protected, extraction on.',
  },
  {
    level: 'caution',
    text: 'An overheated shell gives off fumes and loses its strength: the maker’s temperature and time first, measured on the surface, heat-proof gloves on, ventilation on.',
  },
];

const ofSole: readonly Omit<Caution, 'step'>[] = [
  {
    level: 'warning',
    text: 'A changed sole can keep a binding from releasing: do not ski until boot, binding and ski have been tested together by a certified technician.',
  },
  {
    level: 'warning',
    text: 'Router and planer: clamp the boot, wear eye protection, extraction on, hands clear of the cutter.',
  },
  {
    level: 'warning',
    text: 'Moulded or metal inserts, and screw points inside the boot: nothing is cut or drilled without the maker’s approval on record.',
  },
  {
    level: 'notice',
    text: 'Competition and youth rules limit what may be under a boot: check the rules of the season.',
  },
];

const ofWedge: Omit<Caution, 'step'> = {
  level: 'warning',
  text: 'A skier standing on test wedges can fall: a rail within reach, and step on only when told.',
};

export function cautionsOf(scene: Scene, steps: readonly Step[]): Caution[] {
  const has = (name: Step['step']) => steps.some((step) => step.step === name);
  const cautions: Caution[] = [
    { step: 'intake', level: 'warning', text: CLINICIAN },
    { step: 'intake', level: 'notice', text: DEFER },
  ];
  for (const side of SIDES) {
    const { sight, wedgeIn, closing } = scene.sides[side];
    cautions.push(...ofShell.map((c) => ({ step: 'ready' as const, side, ...c })));
    if (closing.is !== 'closed') cautions.push(...ofCuff.map((c) => ({ step: 'cuff' as const, side, ...c })));
    if (sight.cuff.verdict === 'out-of-travel' || sight.cuff.limitedBy === 'travel')
      cautions.push(...ofTravel.map((c) => ({ step: 'cuff' as const, side, ...c })));
    if (wedgeIn || (scene.service === 'full' && scene.cuffsClosed))
      cautions.push({ step: 'stance', side, ...ofWedge });
  }
  if (has('sole')) cautions.push(...ofSole.map((c) => ({ step: 'sole' as const, ...c })));
  if (scene.log.now('stand.wanted').is !== 'none')
    cautions.push({
      step: 'sole',
      level: 'notice',
      text: 'A difference in stand height follows the word of a clinician or of the skier, as recorded: this tool advises none.',
    });
  if (has('binding')) cautions.push({ step: 'binding', ...ofSole[0]! });
  cautions.push({
    step: 'handover',
    level: 'warning',
    text: 'Check that every pivot bolt is tight before the boots are worn, and again after the first runs.',
  });
  return cautions;
}
