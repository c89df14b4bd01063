/** Where a number comes from: what stands around the numbers, in German. */
import type * as english from '../why.ts';

export const why: typeof english.why = {
  ask: 'Warum?',
  title: (leg) => `${leg}: woher die Zahlen kommen`,
  numbers: 'Zahlen',
  formula: 'Formel',
  symbol: 'Zeichen',
  meaning: 'Was es ist',
  value: 'Wert',
  from: 'Von',
  within: (low, high) => `9 von 10 Mal zwischen ${low} und ${high}`,
  noInterval: 'Eingetragen, gezählt oder gewählt: kein Intervall.',
  assumed: 'eine Vorgabe, oder fest',
  missing: 'Noch nicht berechnet',
  nothing: 'Für dieses Bein ist noch nichts berechnet.',
  source: 'Berechnet in',
};

export const topicWord: typeof english.topicWord = {
  fit: 'Sitz der Schale',
  cuff: 'Schaftneigung',
  stance: 'Knie und Canting',
  sole: 'Sohle',
  foreAft: 'Vor und zurück',
};
