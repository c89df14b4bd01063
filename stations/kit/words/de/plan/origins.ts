/** Where the default of a setting comes from, in German, in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const ORIGINS: Sentences = [
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
];
