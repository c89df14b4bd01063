/** Words that stand on paper, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../paper.ts';
import { Of, of } from './sides.ts';

const TAKERS = { owner: 'Besitzer', guardian: 'Erziehungsberechtigten', other: 'Abholberechtigten' } as const;

export const paper: typeof english.paper = {
  ticket: 'Ticket',
  boot: (side) => `${Of(side, 'er')} Schuh`,
  promised: (when) => `Zugesagt für ${when}`,
  noPromise: 'Noch keine Zeit zugesagt',
  state: (entries, when) => `Protokoll: ${entries} Einträge, der letzte ${when}`,
  practice: 'Gängige Praxis, ohne Quelle.',
  unknown: 'nicht eingetragen',

  bring: 'Bitte mitbringen',
  brings: [
    'Beide Skischuhe mit Innenschuhen und Fußbetten',
    'Die dünnen Socken, in denen Sie fahren',
    'Eine kurze Hose, oder eine, die sich übers Knie krempeln lässt',
    'Was für diese Schuhe schon gemacht wurde: Keile, Platten, eine frühere Einstellkarte',
  ],
  bringSkis:
    'Ihre Ski mit den Bindungen: Nach Arbeit an einer Sohle werden Schuh, Bindung und Ski zusammen geprüft',
  bringRace: 'Die Klasse, in der Sie Rennen fahren, und ihre Regeln der Saison',
  bringGuardian: 'Ein Elternteil oder Erziehungsberechtigter, der Endgültigem zustimmen muss',
  tell: 'Bitte sagen Sie uns vor Beginn',

  keep: 'Bitte zeigen Sie diesen Schein, wenn Sie die Schuhe abholen.',
  inWork: 'In Arbeit: vor der Übergabe nicht tragen.',

  setOn: (when) => `Eingestellt ${when}`,
  pivot: { lateral: 'Drehpunkt außen', medial: 'Drehpunkt innen' },
  pivotsFixed: 'Drehpunkte nicht verstellbar',
  cuff: 'Schaft',
  cant: 'Canting unter dem Schuh',
  sole: 'Sohle',
  soles: {
    untouched: 'nicht verändert',
    plate: 'VERÄNDERT: Platten darunter',
    plane: 'VERÄNDERT: plangefräst',
  },
  thinEdge: (mm) => `dünne Seite ${shown(mm, 2)} mm`,
  lifter: (mm) => `Unterlagsplatte ${shown(mm, 2)} mm`,
  wedge: 'ein Testkeil ist darunter',
  inside: 'Innen',
  lift: (mm) => `Fersenkeil ${shown(mm)} mm`,
  lean: (place) => `Vorlage auf ${place}`,
  shell: (spots) => `Schale bearbeitet: ${spots.join(', ')}`,

  nothingToDo: (side) => `Am ${of(side, 'en')} Schuh ist jetzt nichts zu tun.`,
  orderTitle: 'In dieser Reihenfolge',
  enter: 'Danach an der Werkbank eintragen, was getan wurde: Diese Karte ist nicht das Protokoll.',
  doneBy: 'Gemacht von',
  readBack: 'Abgelesen, mm',
  initials: 'Kürzel',

  cardTitle: 'So sind Ihre Schuhe eingestellt',
  cardLead:
    'Hat sich eine Schraube verdreht: auf die Stelle zurückstellen, die diese Karte zeigt, oder zu uns kommen.',
  yours: (side) => `Ihr ${of(side, 'er')} Schuh`,
  dialHow:
    'Jedes Bild zeigt einen Versteller, gesehen von seiner Seite des Schuhs. Die volle Marke ist seine Stellung; 0 ist Werksneutral, + ist oben.',
  gaps: (medialMm, lateralMm) =>
    `Platz neben dem Bein: innen ${shown(medialMm)} mm, außen ${shown(lateralMm)} mm`,
  scale: (times) => `Maßstab 1 : ${times}`,
  mirror: 'Zu Hause vor dem Spiegel',
  mirrorSteps: [
    'Schuhe an, mit Innenschuhen, Fußbetten und Socken wie zum Fahren; Schnallen leicht geschlossen; auf ebenem Boden.',
    'Füße hüftbreit und parallel, Gewicht auf beiden, Knie leicht gebeugt, wie beim Geradeausgleiten.',
    'Ein Bein nach dem anderen von vorn ansehen: Es steht in der Mitte des Schafts, innen so viel Platz wie außen.',
    'Es berührt auf einer Seite, oder steht anders als am Tag dieser Karte: nachsehen, ob jede Schraube noch steht wie im Bild und fest ist.',
    'Noch immer nicht gleich, oder etwas schmerzt: nicht damit fahren, wiederkommen.',
  ],
  fold: 'hier falten',

  opened: 'Angenommen',
  found: 'Wie vorgefunden',
  left: 'Wie abgegeben',
  rounds: 'Runden und Messungen',
  round: 'Runde',
  pivots: 'Drehpunkte, mm',
  gapsRead: 'Spalte, mm',
  medialLateral: 'innen | außen',
  biasForetold: 'Versatz erwartet',
  biasRead: 'Versatz gemessen',
  noRounds: 'Kein Schaft wurde gemessen.',
  decision: 'Entscheid zum Schaft',
  decisions: {
    even: 'abgeschlossen: gleich',
    accepted: 'so angenommen',
    'other-boot': 'aufgegeben für einen anderen Schuh',
  },
  open: 'nicht abgeschlossen',
  gapsRow: 'Spalte, innen | außen',
  standHeight: 'Standhöhe',
  conforms: 'Sohle gegen ihre Norm',
  conformsIs: { yes: 'entspricht', no: 'ENTSPRICHT NICHT', unknown: 'nicht geprüft' },
  unfinished: 'Nicht fertig',
  finished: 'Jeder Schritt ist getan, oder im Protokoll dagegen entschieden.',
  history: 'Alle Einträge',
  columns: { when: 'Wann', who: 'Wer', what: 'Was' },
  struckBecause: (reason) => `gestrichen: ${reason}`,
  taken: (by) => `Übergeben an den ${TAKERS[by]}`,
  sign: 'Warnhinweise gelesen und verstanden',
  signature: 'Datum, Unterschrift',
};
