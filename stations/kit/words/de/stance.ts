/** Words of the knees and the cant, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../stance.ts';
import { Of, of, place } from './sides.ts';

export const knees: typeof english.knees = {
  view: 'Knie',
  goOn: 'Weiter zu den Knien',
  goOnHint: 'beide Schäfte sind abgeschlossen',

  floor: 'Boden unter dem Skifahrer',
  floorUnchecked: 'In dieser Sitzung nicht geprüft: Ein halbes Grad sind 4 mm am Knie.',
  floorLevel: 'In beide Richtungen eben: 0°',
  floorEnter: 'Gefälle eintragen',
  floorCross: 'Gefälle quer',
  floorAlong: 'Gefälle längs',
  floorHint: 'wie viel, in beide Richtungen; 0 ist eben',
  floorIs: (cross, along) => `Geprüft: ${shown(Math.abs(cross))}° quer, ${shown(Math.abs(along))}° längs`,

  standTitle: 'Schnallen zu wie zum Skifahren. Steht der Skifahrer so?',
  posture: {
    parallel: { name: 'Schuhe parallel', detail: 'auf den Bodenmarken' },
    straightRunStance: {
      name: 'Eigener Stand wie bei gerader Fahrt',
      detail: 'Gewicht gleich, Blick nach vorn',
    },
    midFlex: { name: 'Knie gebeugt', detail: 'halb durch den Flex' },
  },
  how: 'Wie das Knie gemessen wird',
  mark: 'Knie genommen an',
  marks: { patella: 'Mitte der Kniescheibe', condyles: 'Mitte zwischen den Knorren' },
  go: 'Alle drei stimmen: Knie messen',
  goNot: 'Trotzdem messen: Die Haltung wird als nicht richtig vermerkt',
  standMissing: 'Fehlt noch: Standbreite, und wo das Knie genommen wird.',
  again: 'Wie der Skifahrer steht',

  leg: (side) => `${Of(side, 'es')} Knie`,
  under: 'Unter dem Schuh',
  flat: 'nichts, flach',
  unknown: 'nicht eingetragen',
  wedge: (words) => `Testkeil, ${words}`,
  nextWedge: 'Sagt als Nächstes am meisten',
  nextFlat: 'noch einmal hinstellen, flach',
  put: (words) => `Unterlegen: ${words}`,
  putFlat: 'Keil herausnehmen: flach',
  isUnder: 'liegt unter dem Schuh: Knie messen',
  otherWedge: 'Anderer Keil',
  wedgeTitle: (side) => `${Of(side, 'er')} Schuh: Keil darunter`,
  wedgeSize: 'Keil',
  thickEdge: 'Dicke Seite',
  edges: { medial: 'innen', lateral: 'außen' },
  wedgeEnter: 'Dieser Keil liegt unter dem Schuh',

  offset: 'Knie neben der Linie',
  toward: 'Nach',
  towards: { medial: 'innen', lateral: 'außen' },
  height: 'Kniehöhe',
  heightHint: 'über der Sohle',
  restood: 'Neu hingestellt',
  restoodYes: 'ja',
  restoodNo: 'nein',
  record: (side) => `${Of(side, 'es')} Knie eintragen`,
  recordOn: (words) => `auf: ${words}`,

  method: 'Gemacht als',
  methods: { plate: 'Platten', plane: 'Planfräsen' },
  choose: (words) => `${words} wählen`,
  between: (interval) => `9 von 10 Mal in ${interval}`,
  chooseNone: 'Keines wählen: bleibt flach',
  other: 'Anderes Canting',
  otherTitle: (side) => `${Of(side, 'er')} Schuh: anderes Canting`,
  otherLead: (missing) => `Die Messungen tragen das noch nicht. ${missing}`,
  cantSize: 'Canting',
  why: 'Warum',
  whyHint: 'steht neben dem Canting im Protokoll',
  otherEnter: 'Dieses Canting wählen',
  chosen: (words, method) => `Gewählt: ${words}${method ? `, ${method}` : ''}`,
  readMore: 'Noch einmal messen',
  next: 'Beide Cantings sind gewählt.',
  wedgesIn: (sides) =>
    `Unter dem ${sides.map((side) => of(side, 'en')).join(' und dem ')} Schuh liegt noch ein Testkeil: Die Werkbank nimmt ihn ab.`,
};

export const stanceWord: typeof english.stanceWord = {
  blocked: 'erst die Schäfte',
  unread: 'nicht gemessen',
  'flat-enough': 'flach ist richtig',
  cant: 'braucht ein Canting',
  refer: 'zu viel für eine Platte',
  contradictory: 'Messungen widersprechen sich',
};

export const kneeSays: typeof english.kneeSays = {
  flat: 'flach',
  thick: (edge) => `dicke Seite ${place(edge)}`,
  end: (size, edge) => `${size} ${place(edge)}`,
  range: (low, high, edge) => `${low} bis ${high}${edge ? ` ${place(edge)}` : ''}`,
  certain: (thick) => `${thick}: fast sicher (über 99 %)`,
  veryLikely: (thick) => `${thick}: sehr wahrscheinlich (über 95 %)`,
  likely: (thick) => `${thick}: wahrscheinlich (über 84 %)`,
  guess: (thick) => `${thick}: kaum mehr als geraten, noch einmal messen`,
  onLine: 'auf der Linie',
  off: (mm, toward) => `${shown(mm)} mm ${toward === 'lateral' ? 'außerhalb' : 'innerhalb'} der Linie`,
  stands: (where, mmPerDeg) =>
    `Flach steht das Knie ${where}${mmPerDeg === null ? '' : `; 1° bewegt es um ${shown(mmPerDeg)} mm`}.`,
};
