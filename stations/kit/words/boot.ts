/** Words about boots: hardware, readiness, and how the form asks for them. */
import { READY_ITEMS, ASKED_ITEMS } from '../../../core/index.ts';
import type { Payload } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/boot.ts';

export type Item = Payload<'ready.checked'>['item'];
export type Outcome = Payload<'ready.checked'>['outcome'];

export const ITEMS: readonly Item[] = [...READY_ITEMS, ...ASKED_ITEMS];

const itemWordEn: Record<Item, string> = {
  footbed: 'Footbed',
  shell: 'Shell clearance',
  'cuff-neutral': 'Cuff at factory neutral',
  'sole-flat': 'Sole stands flat',
  'pivot-play': 'Pivots without play',
  'buckles-strap': 'Buckles and strap sound',
  liner: 'Liner in and right way round',
  'heel-seated': 'Heel seated',
  'walk-lock': 'Walk lock closed',
};
export const itemWord: Words<typeof itemWordEn> = inLanguage(itemWordEn, german.itemWord);

const outcomeWordEn: Record<Outcome, string> = {
  done: 'done',
  'not-needed': 'not needed',
  'kept-as-found': 'kept as found',
  open: 'to do',
};
export const outcomeWord: Words<typeof outcomeWordEn> = inLanguage(outcomeWordEn, german.outcomeWord);
export const outcomeSign: Record<Outcome, string> = {
  done: '●',
  'not-needed': '–',
  'kept-as-found': '◆',
  open: '○',
};

const hardwareEn = {
  pivots: { dual: 'Two adjusters', single: 'One adjuster', fixed: 'Fixed pivots' },
  pivotsHint: { dual: 'lateral and medial', single: 'lateral only', fixed: 'no adjustment' },
};
export const hardware: Words<typeof hardwareEn> = inLanguage(hardwareEn, german.hardware);

const bootFormEn = {
  title: 'The boots',
  one: (side: string): string => `${side} boot`,
  both: 'Same boot both sides',
  bothHint: 'Model, size and hardware only. Readings are never copied from side to side.',
  model: 'Model',
  mondo: 'Mondopoint',
  mondoHint: 'in centimetres (26.5) or millimetres (265)',
  soleLength: 'Sole length',
  soleStandard: 'Sole standard',
  standards: {
    'iso5355-a': 'ISO 5355 A: alpine, adult',
    'iso5355-c': 'ISO 5355 C: alpine, child',
    'iso23223-a': 'ISO 23223 A: grip walk, adult',
    'iso23223-c': 'ISO 23223 C: grip walk, child',
    'iso9523-a': 'ISO 9523 A: touring, adult',
    'iso9523-c': 'ISO 9523 C: touring, child',
    other: 'Another sole',
  },
  pivots: 'Pivot hardware',
  spacing: 'Pivot spacing',
  spacingHint: 'across the boot, centre to centre',
  height: 'Reading height',
  heightHint: 'above the pivot line',
  lean: 'Factory lean',
  leanHint: 'outward is plus; empty: unknown',
  travel: 'Travel from factory neutral',
  lateralUp: 'Lateral up',
  lateralDown: 'Lateral down',
  medialUp: 'Medial up',
  medialDown: 'Medial down',
  mark: 'One mark',
  markHint: 'empty: none',
  lateralPlaces: 'Lateral places',
  medialPlaces: 'Medial places',
  placesHint: 'only where marks are unequal: A −4; B 0; C 3.5',
  walkMode: 'Has a walk mode',
  known: 'Boots used before in this form',
  save: 'Describe both boots',
  saveOne: (side: string): string => `Describe the ${side} boot`,
  missing: (labels: readonly string[]): string => `Still needed: ${labels.join(', ')}.`,
  standardShort: 'Standard',
};
export const bootForm: Words<typeof bootFormEn> = inLanguage(bootFormEn, german.bootForm);
