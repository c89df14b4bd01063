/** Where a figure comes from, in German, in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const PROVENANCE: Sentences = [
  ['entered by the shop', 'von der Werkstatt eingetragen'],
  [
    'from memory: check against the rules of your season',
    'aus dem Gedächtnis: mit den Regeln der Saison vergleichen',
  ],
  [
    'from memory, no copy of the standard seen: check against your copy',
    'aus dem Gedächtnis, ohne die Norm vor Augen: mit der eigenen Ausgabe vergleichen',
  ],
  [
    'secondary: a drawing of ISO 9523:2015 quoted in an article; check against your copy',
    'zweite Hand: eine Zeichnung aus ISO 9523:2015, in einem Artikel zitiert; mit der eigenen Ausgabe vergleichen',
  ],
  [
    'secondary: FIS limits as passed on for Masters 2015/16; check against the rules of your season',
    'zweite Hand: FIS-Grenzen, wie für Masters 2015/16 weitergegeben; mit den Regeln der Saison vergleichen',
  ],
  [
    'secondary: a 2017/18 summary of the equipment rules; check against the rules of your season',
    'zweite Hand: eine Zusammenfassung der Ausrüstungsregeln 2017/18; mit den Regeln der Saison vergleichen',
  ],
  [
    'secondary: recommended for Masters in 2015/16, mandatory in an older note; check against the rules of your season',
    'zweite Hand: für Masters 2015/16 empfohlen, in einer älteren Notiz Pflicht; mit den Regeln der Saison vergleichen',
  ],
];
