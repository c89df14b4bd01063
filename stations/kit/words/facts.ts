/** Each kind of entry in one short line, as the record of a session shows it. */
import type { Fact, FactOf } from '../../../core/index.ts';
import { shown, signed } from '../numbers.ts';
import { inLanguage } from '../language.ts';
import { Sided } from './common.ts';
import * as german from './de/facts.ts';
import { spotWord } from './foot.ts';
import { cantWords } from './stance.ts';
import { hardware, itemWord, outcomeWord } from './boot.ts';

const mm = (value: number) => `${shown(value)} mm`;

function pivotsTextEn(lateralMm: number, medialMm: number | undefined): string {
  const lateral = `lateral ${signed(lateralMm, 2)} mm`;
  return medialMm === undefined ? lateral : `${lateral}, medial ${signed(medialMm, 2)} mm`;
}

/** What was read beside the two gaps. */
const beside = ({ lower, shinMm, calfMm }: FactOf<'cuff.read'>): string =>
  [
    ...(lower
      ? [
          `, lower medial ${shown(lower.medialMm)}, lateral ${shown(lower.lateralMm)} at ${mm(lower.heightMm)}`,
        ]
      : []),
    ...(shinMm === undefined ? [] : [`, shin ${mm(shinMm)}`]),
    ...(calfMm === undefined ? [] : [`, calf ${mm(calfMm)}`]),
  ].join('');

function reading(fact: FactOf<'cuff.read'>): string {
  const touch =
    fact.contact === 'none'
      ? ''
      : `, ${fact.pressure ?? ''} ${fact.contact === 'both' ? 'on both sides' : fact.contact}`;
  return `medial ${shown(fact.medialMm)}, lateral ${mm(fact.lateralMm)}${touch}${fact.fromPhoto ? ', from a photo' : ''}${beside(fact)}`;
}

const kneeText = (offsetMm: number): string =>
  offsetMm === 0
    ? 'on the line'
    : `${mm(Math.abs(offsetMm))} ${offsetMm > 0 ? 'lateral' : 'medial'} of the line`;

const said = (...parts: readonly (string | undefined | false)[]): string => parts.filter(Boolean).join(', ');

/** Work that is agreed to, by its short name; entries of earlier versions have it in words. */
const AGREED: Record<string, string> = {
  slot: 'longer pivot slot',
  hole: 'moved pivot hole',
  punch: 'shell punched',
  grind: 'shell ground',
  plane: 'sole planed',
  rout: 'lugs routed',
};

/** The part of it that the boot is chosen and worked by. */
const looked = ({ footLengthMm, shellGapMm, hotSpots }: FactOf<'assessed'>): string[] => [
  ...(footLengthMm === undefined ? [] : [`foot ${mm(footLengthMm)}`]),
  ...(shellGapMm === undefined ? [] : [`${mm(shellGapMm)} behind the heel`]),
  ...(hotSpots === undefined
    ? []
    : [hotSpots.length > 0 ? `presses at ${hotSpots.map(spotWord).join(', ')}` : 'presses nowhere']),
];

function factSentenceEn(fact: Fact): string {
  switch (fact.kind) {
    case 'session.opened':
      return said(`Session opened, ticket ${fact.ticket}`, fact.notes);
    case 'service.changed':
      return `Service changed to ${fact.service}: ${fact.reason}`;
    case 'work.agreed':
      return `Work agreed by the ${fact.agreedBy ?? 'owner'}: ${fact.irreversible.map((work) => AGREED[work] ?? work).join(', ') || 'nothing irreversible'}`;
    case 'health.asked':
      return `Health asked: ${{ proceed: 'go on', refer: 'to a clinician first', stop: 'stop' }[fact.outcome]}`;
    case 'assessed':
      return said(`${Sided(fact.side)} foot and leg looked at`, ...looked(fact));
    case 'paused':
      return said('Paused', fact.bootsAre, fact.note);
    case 'settings.used':
      return 'Settings of the shop pinned for this session';
    case 'leg.known':
      return `${Sided(fact.side)} leg known from before`;
    case 'stand.wanted':
      return `${Sided(fact.side)} boot to stand ${mm(fact.higherMm)} higher, on the word of the ${fact.onWordOf}`;
    case 'floor.checked':
      return `Floor: ${signed(fact.crossDeg)}° across, ${signed(fact.alongDeg)}° along`;
    case 'boot.described':
      return `${Sided(fact.side)} boot: ${fact.model}, ${hardware.pivots[fact.hardware.pivots].toLowerCase()}`;
    case 'response.known':
      return `${Sided(fact.side)} boot answers ${shown(fact.k, 2)} times, from ${fact.pairs} earlier moves`;
    case 'ready.checked':
      return said(
        `${Sided(fact.side)} ${itemWord[fact.item].toLowerCase()}: ${outcomeWord[fact.outcome]}`,
        fact.note,
      );
    case 'inside.set':
      return `${Sided(fact.side)} boot changed inside`;
    case 'shell.worked':
      return said(
        `${Sided(fact.side)} shell: ${fact.method} at ${fact.spot}`,
        fact.amountMm !== undefined && mm(fact.amountMm),
      );
    case 'pivot.reworked':
      return `${Sided(fact.side)} ${fact.adjuster} pivot reworked: ${mm(fact.newUpMm)} up, ${mm(fact.newDownMm)} down`;
    case 'sole.set':
      return `${Sided(fact.side)} sole: cant ${signed(fact.cantDeg)}°, ${fact.state.replace('-', ' ')}`;
    case 'cuff.set':
      return said(
        `${Sided(fact.side)} pivots at ${pivotsTextEn(fact.lateralMm, fact.medialMm)}`,
        fact.state === 'as-found' && 'as found',
      );
    case 'cuff.read':
      return `${Sided(fact.side)} cuff read: ${reading(fact)}`;
    case 'cuff.closed':
      return said(
        `${Sided(fact.side)} cuff ${{ even: 'closed: even', accepted: 'accepted as it is', 'other-boot': 'given up: another boot' }[fact.decision]}`,
        fact.note,
      );
    case 'stance.read':
      return said(`${Sided(fact.side)} knee ${kneeText(fact.kneeOffsetMm)}`, fact.restood && 'stood afresh');
    case 'cant.chosen':
      return said(`${Sided(fact.side)} cant chosen: ${cantWords(fact.cantDeg)}`, fact.method, fact.override);
    case 'plate.fitted':
      return said(
        `${Sided(fact.side)} sole ${fact.method === 'plate' ? 'fitted' : 'planed'}: ${cantWords(fact.cantDeg)}`,
        fact.method === 'plate' && `plate, thin edge ${mm(fact.thinEdgeMm)}`,
        fact.lifterMm !== undefined && fact.lifterMm > 0 && `lifter ${mm(fact.lifterMm)}`,
      );
    case 'sole.measured':
      return `${Sided(fact.side)} sole measured ${fact.when ?? 'after'} the work`;
    case 'foreaft.read':
      return said(
        `${Sided(fact.side)} fore-aft read: board ${shown(fact.boardHeelMm)} over ${shown(fact.boardToeMm)} on ${mm(fact.boardSpanMm)}`,
        fact.forwardLeanDeg !== undefined && `forward lean ${shown(fact.forwardLeanDeg)}°`,
      );
    case 'binding.checked':
      return said(`Binding: ${fact.outcome.replace('-', ' ')}`, fact.reference, fact.note);
    case 'handed.over':
      return said(`Handed over to the ${fact.acknowledgedBy}`, fact.note);
    case 'released.unfit':
      return `Left unfit: ${typeof fact.what === 'string' ? fact.what : fact.what.join(', ')}`;
    case 'home.checked':
      return `Checked at home: ${fact.note}`;
    case 'snow.reported':
      return said(`After snow: ${fact.note}`, fact.wantsRecheck && 'wants a re-check');
    case 'photo.taken':
      return `${Sided(fact.side)} ${{ leg: 'leg', gap: 'gap', boot: 'boot' }[fact.shows]}: photo taken`;
    case 'photo.marked':
      return `${Sided(fact.side)} photo marked`;
    case 'struck':
      return `Struck an entry: ${fact.reason}`;
    default:
      return unknownKind(fact);
  }
}

/** An entry of a newer program: kept, shown by its name, and nothing follows from it here. */
const unknownKind = (fact: never): string =>
  `Entry of a kind this version does not know: ${(fact as { kind: string }).kind}`;

/** What an entry says, without who and when. */
export const factSentence: (fact: Fact) => string = inLanguage(factSentenceEn, german.factSentence);

/** `lateral −1 mm, medial +1 mm`, from factory neutral, up is plus; the lateral one alone where there is no other. */
export const pivotsText: (lateralMm: number, medialMm: number | undefined) => string = inLanguage(
  pivotsTextEn,
  german.pivotsText,
);
