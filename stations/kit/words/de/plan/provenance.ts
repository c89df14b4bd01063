/** Where a figure comes from, in German, in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const PROVENANCE: Sentences = [
  ['common practice, no source', 'gängige Praxis, ohne Quelle'],
  [
    'common practice, no source; figure from memory, low',
    'gängige Praxis, ohne Quelle; Zahl aus dem Gedächtnis, unsicher',
  ],
  ['from memory', 'aus dem Gedächtnis'],
  ['from memory, low', 'aus dem Gedächtnis, unsicher'],
  ['from memory, medium', 'aus dem Gedächtnis, mittel sicher'],
  ['from memory, low; 1 is the rigid leg', 'aus dem Gedächtnis, unsicher; 1 ist das starre Bein'],
  [
    'from memory, low; screw-head depth + 1 mm when that is more',
    'aus dem Gedächtnis, unsicher; Sitztiefe der Schraube + 1 mm, wenn das mehr ist',
  ],
  [
    "from memory; replaced by the shop's own repeatability study",
    'aus dem Gedächtnis; die eigene Wiederholstudie der Werkstatt ersetzt ihn',
  ],
  [
    'a frontal-plane inclinometer with a standard error of {n}° ({raw}) at {n2} mm is {n3} mm',
    'ein Neigungsmesser in der Frontalebene mit Standardfehler {n}° ({raw}) ergibt auf {n2} mm {n3} mm',
  ],
  [
    'computed: keeps the bias that it causes under the reading error',
    'berechnet: hält den Versatz, den es macht, unter dem Messfehler',
  ],
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
