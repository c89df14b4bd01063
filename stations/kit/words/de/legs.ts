/** Deutsch für ../legs.ts. */
import type { Side } from '../../../../core/index.ts';
import { shown, signed } from '../../numbers.ts';

const LEG: Readonly<Record<Side, string>> = { left: 'linke', right: 'rechte' };
const Leg: Readonly<Record<Side, string>> = { left: 'Linkes', right: 'Rechtes' };
const Boot: Readonly<Record<Side, string>> = { left: 'Linker', right: 'Rechter' };

export const legsWords = {
  open: 'Beine über die Zeit',
  title: 'Beine über die Zeit',
  hint: 'frühere Schuhe, was in einem anderen zu erwarten ist',
  none: 'Kein Schaft dieser Person wurde in einer anderen Sitzung gemessen, oder ihre Daten wurden gelöscht.',
  noneOf: (side: Side): string => `Über das ${LEG[side]} Bein ist aus anderen Sitzungen nichts bekannt.`,
  leg: (side: Side): string => `${Leg[side]} Bein`,
  here: 'diese Sitzung',
  plot: (side: Side): string =>
    `${Leg[side]} Bein: seine Neigung in Grad, nach außen oben, Sitzung für Sitzung`,
  interval: '9 von 10 Mal innerhalb der Linie, so wie an dem Tag gestanden wurde',
  point: (when: string, model: string, angle: number, within: number): string =>
    `${when}, ${model}: ${signed(angle)}° ± ${shown(within)}°`,
  read: (lean: string, within: number): string => `${lean} (± ${shown(within)}°)`,
  unread: 'keine Messung, die sagt, wo das Bein steht',
  ticket: (ticket: string): string => `Ticket ${ticket}`,
  columns: { when: 'Wann', boot: 'Schuh', leg: 'Linie des Beins' },
  through: {
    centre: 'Linie durch die Mitte der Drehpunkte gelegt',
    'two-heights': 'in zwei Höhen gemessen',
    'known-leg': 'Linie von früher bekannt',
  },
  expect: (lean: string, within: number): string =>
    `In einem anderen Schuh etwa ${lean} erwarten (± ${shown(within)}°), nach der Sitzung, die es am sichersten sagt.`,
  begins: (side: Side, model: string, lean: string, within: number): string =>
    `${Boot[side]} ${model}: Schaft gleich bei etwa ${lean} zu erwarten (± ${shown(within)}°), bevor etwas gemessen ist.`,
  beginsHint:
    'Vom Server übernommen, als der Schuh beschrieben wurde. Es wird mit den Messungen gewogen und ersetzt keine.',
  reach: 'Modelle, die dafür reichen',
  reachNone: 'Kein Modell des Katalogs hat eine Werksneigung: Keines lässt sich vergleichen.',
  only: 'Das gilt für den Schaft allein. Länge, Breite, Rist und Flex probiert der Fuß.',
  changed:
    'Fragen, was sich seither geändert hat: Verletzung, Operation, Schmerz oder ein neuer Unterschied gehören zuerst zu Arzt oder Therapeut.',
  sources:
    'Dazu kommen 0,7° für das neue Stehen (Tse et al. 2021), 1° für einen anderen Schuh und 0,5° für die Wurzel jedes Jahres (beide aus dem Gedächtnis, ohne Quelle).',
  unreachable: 'Der Server der Werkstatt antwortet nicht.',
};
