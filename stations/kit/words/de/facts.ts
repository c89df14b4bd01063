/** Each kind of entry in one short line, in German. */
import type { Fact, FactOf } from '../../../../core/index.ts';
import { shown, signed } from '../../numbers.ts';
import { hardware, itemWord, outcomeWord } from './boot.ts';
import { landmarkWord } from './foot.ts';
import { Of, place, Sided } from './sides.ts';
import { kneeSays } from './stance.ts';

const mm = (value: number) => `${shown(value)} mm`;
const said = (...parts: readonly (string | undefined | false)[]): string => parts.filter(Boolean).join(', ');

export function pivotsText(lateralMm: number, medialMm: number | undefined): string {
  const lateral = `außen ${signed(lateralMm, 2)} mm`;
  return medialMm === undefined ? lateral : `${lateral}, innen ${signed(medialMm, 2)} mm`;
}

const spotWord = (spot: string): string => (landmarkWord as Readonly<Record<string, string>>)[spot] ?? spot;
const PRESSURE = { graze: 'streift', press: 'drückt' } as const;

/** What was read beside the two gaps. */
const beside = ({ lower, shinMm, calfMm }: FactOf<'cuff.read'>): string =>
  [
    ...(lower
      ? [`, unten innen ${shown(lower.medialMm)}, außen ${shown(lower.lateralMm)} bei ${mm(lower.heightMm)}`]
      : []),
    ...(shinMm === undefined ? [] : [`, Schienbein ${mm(shinMm)}`]),
    ...(calfMm === undefined ? [] : [`, Wade ${mm(calfMm)}`]),
  ].join('');

function reading(fact: FactOf<'cuff.read'>): string {
  const how = fact.pressure ? PRESSURE[fact.pressure] : 'berührt';
  const touch =
    fact.contact === 'none'
      ? ''
      : `, ${how} ${fact.contact === 'both' ? 'auf beiden Seiten' : place(fact.contact)}`;
  return `innen ${shown(fact.medialMm)}, außen ${mm(fact.lateralMm)}${touch}${fact.fromPhoto ? ', aus einem Foto' : ''}${beside(fact)}`;
}

const cant = (cantDeg: number): string =>
  Number(Math.abs(cantDeg).toFixed(2)) === 0
    ? kneeSays.flat
    : `${shown(Math.abs(cantDeg), 2)}°, ${kneeSays.thick(cantDeg > 0 ? 'medial' : 'lateral')}`;

const WHO = {
  owner: 'Besitzer',
  guardian: 'Vormund',
  other: 'jemand anderem',
  clinician: 'Arzt',
  skier: 'Skifahrer',
};
const who = (name: string): string => (WHO as Record<string, string>)[name] ?? name;
const SERVICE = { cuffs: 'nur Schäfte', full: 'Schäfte, Knie, Sohlen', recheck: 'Nachkontrolle' };
const SOLE: Record<FactOf<'sole.set'>['state'], string> = {
  'as-brought': 'wie gebracht',
  neutralised: 'auf null gebracht',
  'test-wedge': 'Testkeil',
  fitted: 'montiert',
};
const SHELL = { punch: 'gedrückt', grind: 'geschliffen', stretch: 'geweitet' };
const METHOD = { plate: 'Platten', plane: 'Planfräsen' };
const BINDING = {
  passed: 'geprüft und bestanden',
  'sent-out': 'Ski zur Prüfung unterwegs',
  declined: 'vom Besitzer abgelehnt',
};
const AGREED: Record<string, string> = {
  slot: 'Langloch verlängern',
  hole: 'Loch versetzen',
  punch: 'Schale drücken',
  grind: 'Schale schleifen',
  plane: 'Sohle planfräsen',
  rout: 'Sohlenrand fräsen',
};

/** The part of it that the boot is chosen and worked by. */
const looked = ({ footLengthMm, shellGapMm, hotSpots }: FactOf<'assessed'>): string[] => [
  ...(footLengthMm === undefined ? [] : [`Fuß ${mm(footLengthMm)}`]),
  ...(shellGapMm === undefined ? [] : [`${mm(shellGapMm)} hinter der Ferse`]),
  ...(hotSpots === undefined
    ? []
    : [hotSpots.length > 0 ? `drückt: ${hotSpots.map(spotWord).join(', ')}` : 'drückt nirgends']),
];

export function factSentence(fact: Fact): string {
  switch (fact.kind) {
    case 'session.opened':
      return said(`Sitzung eröffnet, Ticket ${fact.ticket}`, fact.notes);
    case 'service.changed':
      return `Auftrag geändert auf „${SERVICE[fact.service]}“: ${fact.reason}`;
    case 'work.agreed':
      return `Einverständnis mit der Arbeit von: ${who(fact.agreedBy ?? 'owner')}; ${fact.irreversible.map((work) => AGREED[work] ?? work).join(', ') || 'nichts Endgültiges'}`;
    case 'health.asked':
      return `Nach der Gesundheit gefragt: ${{ proceed: 'weiter', refer: 'zuerst ärztlich abklären', stop: 'Halt' }[fact.outcome]}`;
    case 'assessed':
      return said(`Fuß und Bein ${fact.side === 'left' ? 'links' : 'rechts'} angesehen`, ...looked(fact));
    case 'paused':
      return said('Unterbrochen', fact.bootsAre, fact.note);
    case 'settings.used':
      return 'Einstellungen der Werkstatt für diese Sitzung festgehalten';
    case 'leg.known':
      return `${Of(fact.side, 'es')} Bein von früher bekannt`;
    case 'stand.wanted':
      return `${Of(fact.side, 'er')} Schuh soll ${mm(fact.higherMm)} höher stehen, auf Wort von: ${who(fact.onWordOf)}`;
    case 'floor.checked':
      return `Boden: ${signed(fact.crossDeg)}° quer, ${signed(fact.alongDeg)}° längs`;
    case 'boot.described':
      return `${Of(fact.side, 'er')} Schuh: ${fact.model}, ${hardware.pivots[fact.hardware.pivots]}`;
    case 'response.known':
      return `${Of(fact.side, 'er')} Schuh antwortet ${shown(fact.k, 2)}-fach, aus ${fact.pairs} früheren Verstellungen`;
    case 'ready.checked':
      return said(`${Sided(fact.side)}, ${itemWord[fact.item]}: ${outcomeWord[fact.outcome]}`, fact.note);
    case 'inside.set':
      return `${Of(fact.side, 'er')} Schuh innen geändert`;
    case 'shell.worked':
      return said(
        `${Of(fact.side, 'e')} Schale: ${SHELL[fact.method]}, ${spotWord(fact.spot)}`,
        fact.amountMm !== undefined && mm(fact.amountMm),
      );
    case 'pivot.reworked':
      return `${Of(fact.side, 'er')} Drehpunkt ${place(fact.adjuster)} umgebaut: ${mm(fact.newUpMm)} hoch, ${mm(fact.newDownMm)} tief`;
    case 'sole.set':
      return `${Of(fact.side, 'e')} Sohle: Canting ${signed(fact.cantDeg)}°, ${SOLE[fact.state]}`;
    case 'cuff.set':
      return said(
        `Drehpunkte ${fact.side === 'left' ? 'links' : 'rechts'} bei ${pivotsText(fact.lateralMm, fact.medialMm)}`,
        fact.state === 'as-found' && 'wie vorgefunden',
      );
    case 'cuff.read':
      return `${Of(fact.side, 'er')} Schaft gemessen: ${reading(fact)}`;
    case 'cuff.closed':
      return said(
        `${Of(fact.side, 'er')} Schaft ${{ even: 'abgeschlossen: gleich', accepted: 'angenommen, wie er ist', 'other-boot': 'aufgegeben: anderer Schuh' }[fact.decision]}`,
        fact.note,
      );
    case 'stance.read':
      return said(
        `${Of(fact.side, 'es')} Knie ${fact.kneeOffsetMm === 0 ? kneeSays.onLine : kneeSays.off(Math.abs(fact.kneeOffsetMm), fact.kneeOffsetMm > 0 ? 'lateral' : 'medial')}`,
        fact.restood && 'neu hingestellt',
      );
    case 'cant.chosen':
      return said(
        `Canting ${fact.side === 'left' ? 'links' : 'rechts'} gewählt: ${cant(fact.cantDeg)}`,
        fact.method && METHOD[fact.method],
        fact.override,
      );
    case 'plate.fitted':
      return said(
        `${Of(fact.side, 'e')} Sohle ${fact.method === 'plate' ? 'montiert' : 'plangefräst'}: ${cant(fact.cantDeg)}`,
        fact.method === 'plate' && `${METHOD.plate}, dünne Seite ${mm(fact.thinEdgeMm)}`,
        fact.lifterMm !== undefined && fact.lifterMm > 0 && `Unterlagsplatte ${mm(fact.lifterMm)}`,
      );
    case 'sole.measured':
      return `${Of(fact.side, 'e')} Sohle ${fact.when === 'before' ? 'vor' : 'nach'} der Arbeit gemessen`;
    case 'foreaft.read':
      return said(
        `Vor und zurück gemessen, ${fact.side === 'left' ? 'links' : 'rechts'}: Board ${shown(fact.boardHeelMm)} über ${shown(fact.boardToeMm)} auf ${mm(fact.boardSpanMm)}`,
        fact.forwardLeanDeg !== undefined && `Vorlage ${shown(fact.forwardLeanDeg)}°`,
      );
    case 'binding.checked':
      return said(`Bindung: ${BINDING[fact.outcome]}`, fact.reference, fact.note);
    case 'handed.over':
      return said(`Übergeben an: ${who(fact.acknowledgedBy)}`, fact.note);
    case 'released.unfit':
      return `Nicht in Ordnung abgegeben: ${typeof fact.what === 'string' ? fact.what : fact.what.join(', ')}`;
    case 'home.checked':
      return `Zu Hause geprüft: ${fact.note}`;
    case 'snow.reported':
      return said(`Nach dem Schnee: ${fact.note}`, fact.wantsRecheck && 'möchte eine Nachkontrolle');
    case 'photo.taken':
      return `${Sided(fact.side)}, ${{ leg: 'Bein', gap: 'Spalt', boot: 'Schuh' }[fact.shows]}: Foto gemacht`;
    case 'photo.marked':
      return `${Sided(fact.side)}, Foto vermessen`;
    case 'struck':
      return `Eintrag gestrichen: ${fact.reason}`;
    default:
      return unknownKind(fact);
  }
}

const unknownKind = (fact: never): string =>
  `Ein Eintrag, den diese Version nicht kennt: ${(fact as { kind: string }).kind}`;
