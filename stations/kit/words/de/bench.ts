/** Words of the bench, in German. */
import type * as english from '../bench.ts';
import { of, Of } from './sides.ts';

export const benchActs: typeof english.benchActs = {
  'cuff.set': 'Drehpunkte stellen',
  'shell.worked': 'Schale an der Presse',
  'pivot.reworked': 'Langloch verlängern',
  'sole.set': 'Sohle auf null',
  'sole.measured': 'Sohle messen',
  'plate.fitted': 'Sohle: Platte oder plan',
};

export const bench: typeof english.bench = {
  title: 'Werkbank',
  queue: 'Jetzt zu machen',
  empty: 'Nichts zu machen. Schuhe stehen hier, sobald sie am Messplatz gemessen sind.',
  away: 'Skifahrer ist gegangen',
  pick: 'Anhänger eines Schuhs scannen, oder links einen Schuh wählen.',
  gone: (back) =>
    back === null
      ? 'Der Skifahrer ist gegangen: Nachmessen geht jetzt nicht.'
      : `Der Skifahrer ist gegangen: Nachmessen geht nicht vor ${back}.`,
  goneDo: 'Machen wie gesagt und eintragen; der Messplatz misst nach, wenn er zurück ist.',
  goneLoose: 'Die Schrauben am Drehpunkt sind noch lose.',
  goneWedges: 'Testkeile sind noch drin.',
  soleWaits: 'die Sohle, sobald sie bearbeitet werden darf',
  boot: (side) => `${Of(side, 'er')} Schuh`,
  inHand: (side) => `hat den ${of(side, 'en')} Schuh in der Hand`,
  told: 'Erledigt wie gesagt',
  toldHint: (what) => `trägt ein: ${what}`,
  else: 'Etwas anderes gemacht',
  enter: 'Diese Stellung eintragen',
  orderTitle: 'Reihenfolge',
  order: [
    'Schrauben lösen, Schlüssel des Herstellers',
    'Auf den Strich stellen',
    'Schaft leicht schließen',
    'Beide mit Drehmoment festziehen',
    'Skala ablesen und vergleichen',
  ],
  soleTitle: 'Sohle zurück auf null',
  soleDone: 'Die Sohle ist jetzt auf null',
  nothingNow: 'An diesem Paar ist jetzt nichts mehr zu tun.',
  nothingHint: 'Der Messplatz misst noch einmal. Zurücknehmen oder andere Arbeit eintragen geht weiterhin.',
  entered: (what, state) => `Eingetragen: ${what} (${state})`,
  otherWork: 'Andere Arbeit an diesem Schuh',
  otherTitle: 'Andere Arbeit',
  which: 'Welcher Schuh?',
  rework: 'Drehpunkt umgebaut',
  reworkHint: 'Langloch verlängert oder Loch versetzt: der Verstellweg ab jetzt',
  shell: 'Schale bearbeitet',
  shellHint: 'gedrückt, geschliffen oder geweitet',
  neutralise: 'Sohle auf null gebracht',
  neutraliseHint: 'Platten ab, oder Gegenkeil unter dem Schuh',
  adjuster: 'Versteller',
  adjusters: { lateral: 'außen', medial: 'innen' },
  method: 'Wie',
  reworkMethods: { slot: 'Langloch verlängert', 'moved-hole': 'Loch versetzt', other: 'anders' },
  newUp: 'Weg nach oben jetzt',
  newDown: 'Weg nach unten jetzt',
  neutralShift: 'Neutral verschoben um',
  neutralHint: 'oben ist plus; leer lassen, wenn nicht',
  edge: 'Schale bis zum Rand übrig',
  edgeHint: 'leer lassen, wenn nicht gemessen',
  spot: 'Wo an der Schale',
  spotHint: 'zum Beispiel: Köpfchen des fünften Mittelfußknochens',
  shellMethods: { punch: 'gedrückt', grind: 'geschliffen', stretch: 'geweitet' },
  amount: 'Um wie viel',
  ready: 'Eintragen',
  ticket: (ticket) => `Ticket ${ticket}`,
  agreedMissing:
    'Es steht kein Einverständnis des Besitzers mit endgültiger Arbeit im Protokoll. Vor dem Schneiden an der Theke fragen.',
};
