/** Deutsch für ../learned.ts. */
import { shown, signed } from '../../numbers.ts';

export const learnedWords = {
  title: 'Was die Werkstatt gelernt hat',
  lead: 'Jeder Schritt, vor und nach dem gemessen wurde, sagt, wie Schuhe wirklich ansprechen. Eine neue Sitzung nimmt es mit, wenn ihr Schuh beschrieben wird; eine laufende behält, womit sie begann.',
  nothing:
    'Noch nichts: Kein Schaft wurde unter gleichen Bedingungen gemessen, verstellt und wieder gemessen.',
  shop: (k: string, low: string, high: string): string =>
    `Alle Schuhe: Ein Schritt bewirkt ${k} dessen, was die Form des Schuhs sagt, 9 von 10 Mal zwischen ${low} und ${high}.`,
  model: 'Modell',
  answers: 'Spricht an',
  answersHint: 'Anteil des Schritts nach der Form; 9 von 10 dazwischen',
  boots: 'Schuhe',
  moves: 'Schritte',
  show: (model: string): string => `Schritte von ${model}`,
  range: (k: string, low: string, high: string): string => `${k} (${low} bis ${high})`,
  percent: (share: number): string => `${Math.round(share * 100)} %`,
  more: (count: number): string => `und ${count} weitere, mit weniger Schritten`,
  plot: {
    title: (model: string): string => `${model}: Änderung des Versatzes, vorhergesagt und gemessen, in mm`,
    foretold: 'vorhergesagt',
    read: 'gemessen',
    as: 'wie vorhergesagt',
    within: 'vorhergesagt, 9 von 10',
    asked: 'weit daneben',
    out: 'weggelassen',
    describe: (count: number, held: number, far: number): string =>
      `${count} ${count === 1 ? 'Schritt' : 'Schritte'}; ${held} davon wie vorhergesagt, innerhalb von 9 von 10; ${far} weit daneben.`,
    table: 'Dasselbe als Tabelle',
    one: (predicted: number, within: number, observed: number): string =>
      `vorhergesagt ${signed(predicted)} ± ${shown(within)}, gemessen ${signed(observed)}`,
  },
  far: {
    heading: 'Weit daneben: wahr oder ein Versehen?',
    none: 'Kein Schritt liegt weit daneben.',
    lead: 'Bis jemand entscheidet, zählt ein solcher Schritt nur so weit, wie ein seltener, aber ehrlicher zählen würde.',
    says: (observed: number, predicted: number, sd: number): string =>
      `Der Versatz änderte sich um ${signed(observed)} mm, vorhergesagt war ${signed(predicted)} ± ${shown(sd)}.`,
    job: (ticket: string | null, side: string, model: string): string =>
      `${ticket === null ? 'Ein fertiger Auftrag' : `Ticket ${ticket}`}, ${side} ${model}`,
    keep: 'Drin lassen',
    leaveOut: 'Weglassen',
    reopen: 'Wieder fragen',
    why: 'Warum wird er weggelassen?',
    reasons: {
      misread: 'Ein Spalt wurde falsch abgelesen',
      pivots: 'Die Drehpunkte standen anders',
      stance: 'Der Stand war ein anderer',
      boot: 'Am Schuh stimmt etwas nicht',
      other: 'Ein anderer Grund',
    },
    state: {
      used: 'zählt',
      asked: 'noch nicht entschieden',
      kept: 'bleibt drin: zählt ganz',
      out: 'weggelassen: zählt nicht',
    },
    decided: {
      kept: (by: string, when: string): string => `Drin gelassen an ${by}, ${when}`,
      out: (by: string, when: string, reason: string): string => `Weggelassen an ${by}, ${when}: ${reason}`,
      asked: (by: string, when: string): string => `Wieder gefragt an ${by}, ${when}`,
    },
  },
  scores: {
    heading: 'Wie gut es vorhergesagt war',
    month: 'Monat',
    first: 'Erster Schritt genug',
    held80: '8 von 10 hielt',
    held90: '9 von 10 hielt',
    of: (count: number, all: number): string =>
      all === 0 ? '–' : `${Math.round((100 * count) / all)} % (${count} von ${all})`,
    title: 'Erster Schritt genug, Monat für Monat, in Prozent',
    point: (month: string, percent: number, all: number): string =>
      `${month}: ${percent} % von ${all} ${all === 1 ? 'Schaft' : 'Schäften'}`,
    hint: 'Ein Bereich, der 9 von 10 sagt, soll 9 von 10 Mal halten. Hält er viel öfter, ist er zu weit; viel seltener, ist der Fehler einer Spaltmessung größer, als die Einstellungen sagen.',
  },
  unreachable: 'Der Server der Werkstatt antwortet nicht.',
};
