/** Deutsch für ../catalogue.ts. */
import type { KnownLeg, Side } from '../../../../core/index.ts';
import { shown } from '../../numbers.ts';

export const catalogueWords = {
  title: 'Schuhe der Werkstatt',
  lead: 'Modelle, aus denen eine Beschreibung ihre Zahlen nimmt. Was hier geändert wird, ändert keine Sitzung.',
  find: 'Modell finden',
  columns: { model: 'Modell', hardware: 'Drehpunkte', source: 'Woher die Zahlen kommen' },
  none: 'Noch kein Modell. Einen Schuh beschreiben und behalten, oder eine Tabelle einlesen.',
  nothingFound: 'Kein Modell dieses Namens.',
  importTable: 'Tabelle einlesen',
  exportTable: 'Als Tabelle ausgeben',
  importHint: 'CSV; ganz oder gar nicht',
  imported: (taken: number, replaced: number): string =>
    `${taken} ${taken === 1 ? 'Modell' : 'Modelle'} übernommen, davon ${replaced} anstelle eines gleichen Namens.`,
  faults: (count: number): string =>
    `Nichts wurde übernommen: ${count} ${count === 1 ? 'Zelle passt' : 'Zellen passen'} nicht.`,
  fault: { row: 'Zeile', column: 'Spalte', wants: 'Was nicht stimmt' },
  remove: (model: string): string => `${model} entfernen`,
  removeShort: 'Entfernen',
  removed: (model: string): string => `${model} wurde entfernt.`,
  unreachable: 'Der Server der Werkstatt antwortet nicht.',
  keep: 'Im Katalog behalten',
  keepTitle: (model: string): string => `${model || 'Es'} für das nächste Paar dieses Modells behalten`,
  source: 'Woher die Zahlen kommen',
  sourceHint: 'Blatt des Herstellers, oder wer wann gemessen hat.',
  kept: (model: string): string => `${model} steht im Katalog.`,
  spacing: (mm: number): string => `${shown(mm)} mm zwischen den Drehpunkten`,
  height: (mm: number): string => `gemessen in ${shown(mm)} mm Höhe`,
  leans: (lean: string): string => `ab Werk ${lean}`,
};

const LEG: Readonly<Record<Side, string>> = { left: 'linke', right: 'rechte' };

export const reachWords = {
  title: (side: Side): string => `Schuhe, die für das ${LEG[side]} Bein reichen`,
  open: 'Welche Schuhe würden reichen?',
  asks: (lean: string, sd: string): string => `Die Linie des Beins neigt sich ${lean}${sd}.`,
  bound: {
    exact: '',
    'at-least': 'Es drückt außen: mindestens das.',
    'at-most': 'Es drückt innen: höchstens das.',
  } as Readonly<Record<KnownLeg['bound'], string>>,
  centre: 'Seine Linie ist durch die Mitte der Drehpunkte gelegt: Eine Messung in zwei Höhen sagt es besser.',
  spare: (deg: number): string => `reicht, ${shown(deg)}° übrig`,
  short: (deg: number, mm: number): string =>
    `${shown(deg)}° zu wenig, ein Versatz von ${shown(mm)} mm bleibt`,
  none: 'Kein Modell des Katalogs hat eine Werksneigung: Keines lässt sich vergleichen.',
  left: (count: number): string =>
    `${count} ${count === 1 ? 'Modell hat' : 'Modelle haben'} keine Werksneigung und lassen sich nicht vergleichen.`,
  only: 'Das gilt für den Schaft allein. Länge, Breite, Rist und Flex probiert der Fuß.',
  sd: (deg: number): string => ` (± ${shown(deg)}°)`,
};
