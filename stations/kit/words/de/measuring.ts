/** Words of the measuring station, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../measuring.ts';
import { Of, of, place as placeWord, Sided } from './sides.ts';

export const measuring: typeof english.measuring = {
  title: 'Messplatz',
  pick: 'Wer steht hier?',
  none: 'Keine offenen Aufträge. Die Annahme ist an der Theke.',
  list: 'Alle Aufträge',
  find: 'Nach Ticket oder Name suchen',
  nothingFound: 'Kein Auftrag passt.',
  doing: { read: 'misst die Spalte', knees: 'misst die Knie', sent: 'hat die Schuhe zur Werkbank gegeben' },
  yourTurn: 'Jetzt hier',
  notYet: 'Jetzt nicht hier',
  views: { ready: 'Bereit', stand: 'Stand', read: 'Messen', result: 'Ergebnis' },
  railLabel: 'Schritte der Messung',

  readyLead: 'Was niemand gesagt hat, gilt nicht. Vor dem Messen sagen, wie jeder Schuh ist.',
  allExpected: (side) => `${Of(side, 'er')} Schuh: alles wie erwartet`,
  allSaid: (side) => `${Of(side, 'er')} Schuh: alles gesagt`,
  allExpectedHint: 'Fußbett drin, keine Arbeit an der Schale, Schaft auf Neutral, Sohle flach, nichts lose',
  itemColumn: 'Punkt',
  soleCant: 'Canting an der Sohle',
  soleCantUnknown: 'nicht eingetragen',
  settle: (side, item) => `${Sided(side)}: ${item}`,
  notAsked: 'nicht gefragt',
  describeBoots: 'Schuhe beschreiben',
  describeAgain: 'Beschreibung berichtigen',
  bootMissing: 'Die Schuhe sind noch nicht beschrieben.',
  health: 'Schmerz, Taubheit, frische Operation oder Bruch, künstliches Gelenk, Schwellung?',
  healthChoices: { proceed: 'Nichts davon: weiter', refer: 'Zuerst ärztlich abklären', stop: 'Halt' },
  healthTitle: 'Gesundheit',
  goStand: 'Beide Schuhe bereit: Skifahrer hinstellen',
  goStandAnyway: 'Weiter zum Stand',
  cantAsk: 'Canting, mit dem die Sohle gebracht wurde',
  cantHint: 'nach außen (dicke Seite innen) ist plus',
  cantFlat: 'Flach gebracht: 0°',
  cantNeutralised: 'Auf 0° zurückgebracht',
  cantAsBrought: 'Mit Canting, wie gebracht',
  foundAsk: 'Wo stehen die Drehpunkte?',
  foundHint: 'Millimeter ab Werksneutral, oben ist plus',
  enter: 'Eintragen',

  sayToSkier: 'Dem Skifahrer sagen',
  postureTitle: 'Steht der Skifahrer so?',
  posture: {
    parallel: { name: 'Schuhe parallel', detail: 'auf den Bodenmarken' },
    straightRunStance: {
      name: 'Eigener Stand wie bei gerader Fahrt',
      detail: 'Gewicht gleich, Blick nach vorn',
    },
    bucklesLight: { name: 'Schnallen leicht, Powerstrap offen', detail: 'Ferse sitzt' },
    midFlex: { name: 'Knie gebeugt', detail: 'Schienbein und Wade haben gleich viel Platz' },
  },
  asItShould: 'so',
  notSo: 'nicht so',
  postureGo: 'Alle vier stimmen: Spalte messen',
  postureGoNot: 'Trotzdem messen: Die Haltung wird als nicht richtig vermerkt',
  stanceWidth: 'Standbreite',
  stanceHint: 'einmal gemessen, dann mit den Bodenmarken gehalten',
  stanceHeld: 'von der letzten Messung',
  widest: (side) => `${Of(side, 'es')} Bein am dicksten`,
  widestPlaces: { front: 'vorn', middle: 'mittig', rear: 'hinten' },
  to: 'Spalt gemessen bis',
  surfaces: { shell: 'Schale', liner: 'Innenschuh' },
  liner: 'Innenschuh',
  linerStates: { in: 'drin', out: 'draußen' },
  conditions: 'Wie gemessen wird',
  standMissing: 'Fehlt noch: Standbreite, und wo jedes Bein am dicksten ist.',

  gap: (side, place) => `${Sided(side)}: Spalt ${placeWord(place)}`,
  gapsOf: (side) => `${Of(side, 'es')} Bein`,
  expected: (mm) => `erwartet ${shown(mm)}`,
  leanNow: (lean) => `Schaft ${lean}`,
  correction: 'Braucht',
  lastRound: (expected, read) => `Versatz: erwartet ${expected}, gemessen ${read}`,
  keypad: 'Spalt in Millimetern',
  half: '+ ½',
  halfOn: 'und ein halber: gilt für die nächste Zahl',
  touches: 'Das Bein berührt hier',
  graze: 'Streift',
  grazeHint: 'berührt, ohne Druck',
  press: 'Drückt',
  pressHint: 'wird zur Seite gedrückt',
  digits: '0–9',
  row: '0–20',
  erase: 'Löschen',
  recordOne: (side) => `${Of(side, 'es')} Bein eintragen`,
  recordBoth: 'Beide Beine eintragen',
  unfinished: 'Beide Spalte eines Beins gehören zusammen.',
  notNeeded: 'abgeschlossen',

  toBench: 'Zur Werkbank geben',
  toBenchHint: (sides) => sides.map((side) => `${of(side, 'er')} Schuh`).join(' und '),
  withBench: 'An der Werkbank. Dieser Bildschirm zeigt, wann die Drehpunkte gestellt sind.',
  backToList: 'Nächster Skifahrer',
  readAgain: 'Noch einmal messen',
  closeEven: (sides) =>
    sides.length === 2
      ? 'Beide Schäfte abschließen: gleich'
      : `${Of(sides[0]!, 'en')} Schaft abschließen: gleich`,
  decide: (side) => `Über den ${of(side, 'en')} Schaft entscheiden`,
  otherwise: 'Anders',
  otherwiseTitle: (side) => `${Of(side, 'er')} Schaft`,
  accept: 'So annehmen, wie er ist',
  acceptHint: 'was übrig bleibt, steht im Protokoll',
  otherBoot: 'Anderen Schuh wählen',
  closeAnyway: 'Als gleich abschließen',
  note: 'Notiz',
  decided: { even: 'abgeschlossen', accepted: 'angenommen', 'other-boot': 'anderer Schuh' },
  stale: (why) => `Überholt: ${why.join('; ')}`,
  standing: 'Fünf Minuten im Stehen: den Skifahrer kurz sitzen lassen.',
  done: 'Beide Schäfte sind abgeschlossen.',
};

export const verdictWord: typeof english.verdictWord = {
  unread: 'nicht gemessen',
  even: 'gleich',
  uneven: 'schief',
  contact: 'drückt',
  'too-narrow': 'zu eng',
  'out-of-travel': 'Weg zu Ende',
};

export const cuffSays: typeof english.cuffSays = {
  noReading: 'In dieser Stellung ist kein Spalt gemessen',
  same: 'Beide Spalte gleich',
  wider: (place, mm) => `Spalt ${placeWord(place)} um ${shown(mm)} mm weiter`,
  mean: (where, repeats, spreadMm) => `${where}, Mittel aus ${repeats} (Streuung ${shown(spreadMm)} mm)`,
  noCorrection: 'keine Korrektur',
  atLeast: (size) => `mindestens ${size}`,
  between: (size, lowDeg, highDeg) => `${size} (${shown(lowDeg)} bis ${shown(highDeg)}°)`,
  now: (chance) => `${chance} jetzt`,
  afterMove: (chance) => `${chance} nach dem Verstellen`,
  even: (parts) => `Gleich: ${parts.join(', ')}`,
};

export const skier: typeof english.skier.de = {
  stand:
    'Stehen Sie wie beim Geradeausgleiten: Fersen hinten im Schuh, Gewicht auf beiden Füßen, Knie leicht gebeugt, Blick zur Wand.',
  standShort: 'Bitte stehen Sie wie beim Geradeausgleiten und schauen Sie zur Wand.',
  closed: 'Beide Schuhe stehen jetzt so wie Ihre Beine. Sie können aussteigen.',
  set: (moves) =>
    `Wir stellen ${moves.map(({ side, outward }) => `den ${of(side, 'en')} Schaft etwas weiter nach ${outward ? 'außen' : 'innen'}`).join(' und ')}. Bitte setzen Sie sich und ziehen Sie ${moves.length === 2 ? 'beide Schuhe' : `den ${of(moves[0]!.side, 'en')} Schuh`} aus.`,
  again:
    'Bitte stellen Sie sich noch einmal in die Schuhe: Wir schauen, ob das Bein jetzt in der Mitte steht.',
  end: 'Dieser Schuh lässt sich nicht weiter stellen. Wir sagen Ihnen, was möglich ist.',
  even: 'Das Bein steht in der Mitte des Schafts. So soll es sein.',
  afterCuffs:
    'Beide Schäfte stehen jetzt so wie Ihre Beine. Bitte schließen Sie die Schnallen wie zum Skifahren: Als Nächstes schauen wir auf Ihre Knie.',
  knees:
    'Stehen Sie wie beim Geradeausgleiten und halten Sie sich am Geländer. Auf einen Keil steigen und wieder herunter nur, wenn ich es sage.',
};
