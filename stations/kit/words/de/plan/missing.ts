/** What a plan says is missing, in German, in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const MISSING: Sentences = [
  [
    'Describe the {side} boot and its pivot hardware.',
    'Den {side:en} Schuh und seine Verstellung beschreiben.',
  ],
  [
    "Record where the {side} cuff's pivots stand, or bring them to neutral.",
    'Eintragen, wo die Drehpunkte des {side:en} Schafts stehen, oder auf Neutral stellen.',
  ],
  [
    'Record where both pivots of the {side} cuff stand.',
    'Eintragen, wo beide Drehpunkte des {side:en} Schafts stehen.',
  ],
  [
    'Record the cant under the {side} boot: a sole nobody looked at is not flat.',
    'Canting unter dem {side:en} Schuh eintragen: Eine Sohle, die niemand angesehen hat, ist nicht flach.',
  ],
  ['Measure the sole’s width at toe and heel.', 'Breite der Sohle an Zehe und Ferse messen.'],
  [
    'Enter the distance between the centres of the two bearing zones: a fore-aft wedge is measured over it.',
    'Abstand der Mitten beider Auflagezonen eintragen: Ein Keil längs wird darüber gemessen.',
  ],
  [
    'Measure the lugs before the work, and enter their standard heights: the lifter follows from them.',
    'Sohlenränder vor der Arbeit messen und ihre Normhöhen eintragen: Daraus folgt die Unterlagsplatte.',
  ],
  [
    'Measure the lugs before the work: no routing is told without.',
    'Sohlenränder vor der Arbeit messen: ohne das wird kein Fräsen vorgegeben.',
  ],
  [
    'Enter the least lug that must be left (maker’s or shop’s figure): no routing is told without.',
    'Eintragen, wie viel Sohlenrand mindestens bleiben muss (Hersteller oder Werkstatt): ohne das wird kein Fräsen vorgegeben.',
  ],
  [
    'Enter how thick the replaceable sole is: it is no solid lug.',
    'Eintragen, wie dick die wechselbare Sohle ist: Sie ist kein voller Sohlenrand.',
  ],
  [
    'The standard height of the {x} lug is not known: enter it from your copy of the standard.',
    'Die Normhöhe des Sohlenrands ({x}) ist nicht bekannt: aus der eigenen Ausgabe der Norm eintragen.',
  ],
  [
    'The {x} lug would stand {n} mm too low at its {adj} edge.',
    'Der Sohlenrand ({x}) stünde {adj} um {n} mm zu tief.',
  ],
  [
    'Only {n} mm of the {x} lug would be left at its {adj} edge; at least {n2} mm must be.',
    'Vom Sohlenrand ({x}) blieben {adj} nur {n} mm; mindestens {n2} mm müssen bleiben.',
  ],
  [
    'Nothing is proposed for the {side} sole without the maker’s approval on record: {x}.',
    'Für die {side:e} Sohle wird ohne Freigabe des Herstellers im Protokoll nichts vorgeschlagen: {x}.',
  ],
  [
    'The {side} sole is replaceable: replace or plate it rather than plane {n}° off it.',
    'Die {side:e} Sohle ist wechselbar: ersetzen oder mit Platten versehen, statt {n}° abzufräsen.',
  ],
];
