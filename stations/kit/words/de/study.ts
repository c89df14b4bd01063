/** Words of the shop's own repeatability study, in German. */
import { shown, signed } from '../../numbers.ts';
import type * as english from '../study.ts';

const sources = {
  subjects: 'die Personen selbst',
  technicians: 'wer misst',
  interaction: 'wer wen misst',
  repeats: 'noch einmal messen',
};

export const studyWords: typeof english.studyWords = {
  title: 'Wie gleich wir messen',
  lead: 'Dieselben Personen werden wieder und wieder gemessen, in zufälliger Reihenfolge und ohne frühere Werte zu sehen. Heraus kommt, wie weit einer Messung dieser Werkstatt zu trauen ist.',
  what: 'Was gemessen wird',
  of: { gap: 'Spalte am Schaft', knee: 'Knie ab der Linie' },
  hints: {
    gap: 'ein Bein jeder Person in einem Schuh; Beine wählen, die auf keiner Seite anliegen',
    knee: 'ein Knie jeder Person, flach',
  },
  first: 'Wer zuerst misst, Kürzel',
  second: 'Wer noch misst, Kürzel',
  secondHint: 'leer: einer allein',
  subjects: 'Wie viele Personen',
  subjectsHint: '10 oder mehr; hier sind sie Nummern, ohne Namen',
  repeats: 'Wie oft jede gemessen wird',
  seed: (seed) => `Reihenfolge Nr. ${seed}, zufällig; sie wird mit der Studie behalten.`,
  amount: (turns) => `${turns} Messungen insgesamt.`,
  begin: 'Studie beginnen',
  missing: 'Noch nötig: Kürzel und 2 bis 20 Personen. Zwei, die messen, haben verschiedene Kürzel.',
  earlier: 'Studien dieser Werkstatt',
  none: 'Noch keine.',
  goOn: (done, turns) => `Weiter: ${done} von ${turns} gemessen`,
  show: 'Ergebnis zeigen',
  line: (kind, technicians, subjects, repeats) =>
    `${kind}, ${technicians.join(' und ')}, ${subjects} Personen, jede ${repeats}-mal`,

  turn: (technician, subject) => `${technician} misst Person ${subject}`,
  progress: (turn, turns) => `Messung ${turn} von ${turns}`,
  handOver: (technician) => `Das Tablet weitergeben: Jetzt misst ${technician}.`,
  how: {
    gap: 'Die Person steigt neu ein, Schnallen leicht, in Mittelstellung. Beide Spalte messen wie immer, und nicht nach dem früheren Wert suchen.',
    knee: 'Die Person stellt sich neu hin. Messen wie immer, und nicht nach dem früheren Wert suchen.',
  },
  caution:
    'Stehen ermüdet. Die Personen zwischen den Messungen sitzen lassen, eine Stange in Reichweite; wer Schmerzen hat, hört auf.',
  medial: 'Spalt innen',
  lateral: 'Spalt außen',
  offset: 'Knie ab der Linie',
  offsetHint: 'nach außen plus, nach innen minus',
  record: 'Eintragen und verdecken',
  incomplete: 'Ein Wert fehlt oder ist keine Zahl, die hier möglich ist.',
  redo: 'Beim letzten vertippt: noch einmal messen',
  redone: 'Zurückgenommen. Die Person steigt neu ein.',
  kept: 'Auf dem Server behalten',
  waits: 'Auf diesem Gerät behalten; der Server antwortet nicht',
  leave: 'Für jetzt lassen',
  unreachable: 'Der Server der Werkstatt antwortet nicht.',
  back: 'Alle Studien',

  sigma: ({ sd }) => `Eine Messung irrt um ${shown(sd, 2)} mm (Standardabweichung).`,
  sure: ({ low, high, df }) =>
    `In Wahrheit ${shown(low, 2)} bis ${shown(high, 2)} mm, zu 95 %, bei ${shown(df, 0)} Freiheitsgraden.`,
  within: 'Einer allein, s_w',
  withInterval: ({ sd, low, high }) => `${shown(sd, 2)} mm (${shown(low, 2)} bis ${shown(high, 2)})`,
  repeatability: 'Zwei Messungen von einem unterscheiden sich zu 95 % um weniger',
  icc: 'Intraklassen-Korrelation, einzelne Messungen',
  ratio: (value) => shown(value, 3),
  unknown: 'nichts streut',
  difference: (technicians) =>
    technicians.length > 1
      ? `${technicians[0]!} − ${technicians[1]!}, im Mittel`
      : 'Erste − zweite Messung, im Mittel',
  limits: 'Grenzen der Übereinstimmung, 95 %',
  estimated: ({ is, low, high }) => `${signed(is, 2)} mm (${signed(low, 2)} bis ${signed(high, 2)})`,
  fromTo: (low, high) => `${signed(low, 2)} bis ${signed(high, 2)} mm`,
  noteGap:
    'Die beiden Spalte eines Stands irren nicht jeder für sich: Die Bereiche zählen einen Stand einmal. Wiederholbarkeit nach Bland und Altman 1986 und 1996, Korrelation nach Shrout und Fleiss 1979.',
  noteKnee: 'Wiederholbarkeit nach Bland und Altman 1986 und 1996, Korrelation nach Shrout und Fleiss 1979.',
  table: 'Alle Messungen als Tabelle',
  plotTitle: (technicians) =>
    technicians.length > 1
      ? `Unterschied ${technicians[0]!} − ${technicians[1]!} der ersten Messungen, über ihrem Mittel`
      : 'Unterschied der ersten zwei Messungen, über ihrem Mittel',
  plotSays: (pairs, { mean, lower, upper }) =>
    `${pairs.length} Paare: ${pairs.map(([a, b]) => `Mittel ${shown((a + b) / 2)}, Unterschied ${signed(a - b)}`).join('; ')}. Unterschied im Mittel ${signed(mean.is, 2)} mm; Grenzen ${signed(lower.is, 2)} und ${signed(upper.is, 2)} mm.`,
  variance: 'Woher die Messungen streuen',
  source: (source, share, variance) => `${sources[source]}: ${share} (${shown(variance, 2)} mm²)`,
  sources,

  deskTitle: 'Der eigene Messfehler der Werkstatt',
  deskLead:
    'Eine fertige Studie des Messplatzes kann an die Stelle des Werts treten, mit dem gearbeitet wird. Sie gilt für Sitzungen, die ab dann eröffnet werden.',
  deskNone: 'Noch keine fertige Studie. Der Messplatz macht eine: „Wie gleich wir messen“.',
  settings: { gap: 'Fehler einer Spaltmessung', knee: 'Fehler einer Kniemessung' },
  now: (setting, mm, own) =>
    `${setting}: jetzt ${shown(mm, 2)} mm, ${own ? 'der eigene Wert' : 'der Vorgabewert'}.`,
  use: (mm) => `Ab jetzt mit ${shown(mm, 2)} mm arbeiten`,
  used: (was, is, by, when) => `Von ${shown(was, 2)} auf ${shown(is, 2)} mm gestellt an ${by}, ${when}.`,
};
