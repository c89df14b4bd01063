/** Words for what a shop may set, in German. */
import type * as english from '../settings.ts';

export const titles: typeof english.titles = {
  gapErrorMm: 'Fehler einer Spaltmessung',
  evenToleranceMm: 'Gleich innerhalb',
  gapSumAskMinMm: 'Schaft vielleicht zu eng unter',
  gapSumAskMaxMm: 'Schaft vielleicht zu weit über',
  offsetLimitMm: 'Versatz an den Drehpunkten',
  responsePriorSd: 'Streuung zwischen Modellen',
  bootSpreadSd: 'Streuung zwischen Schuhen',
  stanceWidthPoolMm: 'Ein Stand innerhalb',
  minHoleEdgeMm: 'Schale übrig am Drehpunktloch',
  kneeErrorMm: 'Fehler einer Kniemessung',
  kneeTargetMm: 'Wo das Knie stehen soll',
  kneeSlopeShare: 'Anteil des starren Beins',
  secondLookDeg: 'Noch einmal ansehen über',
  maxCantDeg: 'Keine Platte über',
  maxDifferenceDeg: 'Links und rechts auseinander um',
  plateStepDeg: 'Abstufung der Platten',
  minThinEdgeMm: 'Dünne Seite einer Platte',
  minLugLeftMm: 'Sohlenrand übrig nach dem Fräsen',
  screwDiameterMm: 'Plattenschrauben, Durchmesser',
  screwHeadDepthMm: 'Plattenschrauben, Sitz',
  screwMarginMm: 'Plattenschrauben, Rand',
  shellShortMm: 'Schale zu kurz bis',
  shellRaceMm: 'Rennpassung bis',
  shellPerformanceMm: 'Sportliche Passung bis',
  shellComfortMm: 'Bequeme Passung bis',
  raceStandMaxMm: 'Standhöhe',
  raceSoleMaxMm: 'Sohle an der Ferse',
};

export const kinds: typeof english.kinds = {
  cuffs: 'Schäfte',
  shells: 'Schalen',
  knees: 'Knie und Canting',
  soles: 'Platten und Sohlen',
  racing: 'Rennsport',
};

export const plain: typeof english.plain = {
  title: 'Womit diese Werkstatt arbeitet',
  lead: 'Ein Wert wird gespeichert, wenn Sie sein Feld verlassen, und gilt für Sitzungen, die danach eröffnet werden. Begonnene Sitzungen behalten ihre.',
  own: 'eigener Wert der Werkstatt',
  ownCount: (n) => (n === 1 ? '1 eigener' : `${n} eigene`),
  unsaved: '▲ nicht gespeichert',
  groups: 'Arten von Einstellungen',
  range: (min, max) => `${min} bis ${max}`,
  noStandard: (range) =>
    `Kein Standardwert, denn ein falscher würde schaden: Angabe des Herstellers oder eigene der Werkstatt, ${range}.`,
  standard: (value, from, range) => `Standard ${value}, ${from}. ${range}.`,
  missing: 'nicht eingegeben',
  takeAway: 'Wegnehmen',
  backTo: (value) => `Zurück zu ${value}`,
  savedNone: 'Gespeichert: keiner eingegeben.',
  savedStandard: 'Gespeichert: der Standardwert.',
  savedValue: (value) => `Gespeichert: ${value}.`,
  outside: (range) => `Erlaubt: ${range}. Nicht gespeichert.`,
  notANumber: 'Keine Zahl. Ziffern eingeben, mit Komma oder Punkt. Nicht gespeichert.',
  refused: (text) => `${text} Nicht gespeichert.`,
};
