/** Words of the fore-aft angles, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../foreaft.ts';
import { Of } from './sides.ts';

export const foreAft: typeof english.foreAft = {
  title: 'Vor und zurück',
  which: 'Welcher Schuh',
  boot: (side) => `${Of(side, 'er')} Schuh`,
  places: {
    boardHeelMm: 'Bootboard hinten',
    boardToeMm: 'Bootboard vorn',
    boardSpanMm: 'Abstand der beiden',
    standHeelMm: 'Standhöhe hinten',
    standToeMm: 'Standhöhe vorn',
    skiStandMm: 'Ski bis Sohle',
    forwardLeanDeg: 'Vorlage',
  },
  taken: {
    boardHeelMm: 'beide über derselben Fläche',
    boardToeMm: 'beide über derselben Fläche',
    boardSpanMm: 'am Bootboard entlang',
    standHeelMm: 'wo die Bindung die Ferse hält',
    standToeMm: 'wo die Bindung die Zehe hält',
    skiStandMm: 'Belag bis Sohle, an der höchsten Stelle',
    forwardLeanDeg: 'Schaft gegen die Sohle, zur Zehe hin',
  },
  mark: (number, name) => `${number} ${name}`,
  before: (value) => `vorher: ${value}`,
  stale: 'In diesem Schuh hat sich etwas geändert: die Werte neu messen.',
  picture: 'Wo jeder Wert gemessen wird, von der Seite, Zehe rechts.',
  needed: 'beide Höhen des Bootboards und ihr Abstand gehören zusammen',
  ramp: 'Rampe, im Schuh',
  delta: 'Delta, unter dem Schuh',
  netRamp: 'Fuß auf dem Ski',
  netLean: 'Schaft auf dem Ski',
  slope: (deg) =>
    Math.abs(deg) < 0.05 ? 'eben' : `${shown(Math.abs(deg))}° ${deg > 0 ? 'Ferse höher' : 'Zehe höher'}`,
  lean: (deg) =>
    Math.abs(deg) < 0.05 ? 'aufrecht' : `${shown(Math.abs(deg))}° nach ${deg > 0 ? 'vorn' : 'hinten'}`,
  perHeel: (deg) => `1 mm unter der Ferse sind ${shown(deg, 2)}°`,
  notYet: 'nicht bekannt',
  record: (sides) =>
    sides.length === 1 ? `${Of(sides[0]!, 'en')} Schuh eintragen` : 'Beide Schuhe eintragen',
  nothing: 'Nichts Neues einzutragen',
  hint: 'Board, Stand und Vorlage: Was nicht gemessen ist, bleibt unbekannt',
};
