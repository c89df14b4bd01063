/** What is wrong with a cell of the catalogue's table, in German, in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const CATALOGUE: Sentences = [
  ['is empty', 'ist leer'],
  ['is empty: the heads are wanted', 'ist leer: Die Überschriften fehlen'],
  ['has no model', 'hat kein Modell'],
  ['has {n} cells under {n2} heads', 'hat {n} Zellen unter {n2} Überschriften'],
  ['stands here twice', 'steht hier doppelt'],
  ['stands in row {n} already', 'steht schon in Zeile {n}'],
  ['is no column of this table: {raw}', 'ist keine Spalte dieser Tabelle: {raw}'],
  ['must be a number (is {raw})', 'muss eine Zahl sein (ist {raw})'],
  ['must be a number (is missing)', 'muss eine Zahl sein (fehlt)'],
  ['must be yes or no (is {raw})', 'muss yes oder no sein (ist {raw})'],
  ['must be places like {raw} (has {raw2})', 'müssen Plätze sein wie {raw} (hat {raw2})'],
  ['has the place {raw} twice', 'hat den Platz {raw} doppelt'],
  [
    'has the place {raw} at {n}, outside its travel',
    'hat den Platz {raw} bei {n}, außerhalb des Verstellwegs',
  ],
  ['is missing: two adjusters have two travels', 'fehlt: Zwei Versteller haben zwei Verstellwege'],
  ['is not there on {raw} pivots', 'gibt es bei Drehpunkten „{raw}“ nicht'],
  ['must be 0 up and 0 down on fixed pivots', 'muss bei festen Drehpunkten 0 nach oben und unten sein'],
];
