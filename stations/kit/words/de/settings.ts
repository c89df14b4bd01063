/** Words for what a shop may set, in German. */
import type * as english from '../settings.ts';
import type { Name } from '../settings.ts';

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

export const means: Readonly<Record<Name, string>> = {
  gapErrorMm: 'Standardabweichung einer Spaltmessung',
  evenToleranceMm: 'ein Versatz bis hierher gilt als gleich',
  gapSumAskMinMm: 'bei kleinerer Summe beider Spalte wird gefragt: Der Schaft ist vielleicht zu eng',
  gapSumAskMaxMm: 'bei größerer Summe beider Spalte wird gefragt: Der Schaft ist vielleicht zu weit',
  offsetLimitMm:
    'bis zu diesem Versatz auf Höhe der Drehpunkte passen gleicher Spalt und paralleler Schaft zusammen',
  responsePriorSd: 'Streuung des Ansprechens zwischen Schuhmodellen, bevor etwas bekannt ist',
  bootSpreadSd: 'Streuung des Ansprechens zwischen Schuhen eines Modells',
  kneeErrorMm: 'Standardabweichung einer Messung des Knieversatzes',
  kneeTargetMm: 'wo die Kniemitte stehen soll; nach außen von der Linie positiv',
  kneeSlopeShare: 'Anteil der Kniebewegung des starren Beins, den ein Canting voraussichtlich bringt',
  plateStepDeg: 'Abstufung, in der es Platten gibt',
  secondLookDeg: 'darüber schaut eine zweite Fachkraft',
  maxCantDeg: 'darüber wird keine Platte vorgeschlagen',
  maxDifferenceDeg: 'liegen links und rechts weiter auseinander, wird nachgefragt',
  minThinEdgeMm: 'geringste Dicke einer Platte an ihrer dünnen Seite',
  shellShortMm: 'bis zu diesem Spalt hinter der Ferse in der leeren Schale ist sie zu kurz',
  shellRaceMm: 'bis hierher ist der Spalt der Schale eine Rennpassung',
  shellPerformanceMm: 'bis hierher ist der Spalt der Schale eine sportliche Passung',
  shellComfortMm: 'bis hierher ist der Spalt der Schale eine bequeme Passung; darüber ist sie zu lang',
  stanceWidthPoolMm: 'Messungen mit weiter auseinanderliegenden Standbreiten werden nicht zusammengenommen',
  minLugLeftMm: 'wie viel Sohlenrand nach dem Fräsen mindestens bleibt',
  screwDiameterMm: 'Außendurchmesser des Gewindes der Plattenschrauben',
  screwHeadDepthMm: 'wie tief der Sitz des Schraubenkopfs in der Platte liegt; 0: obenauf',
  screwMarginMm: 'geringstes Material zwischen der Spitze einer Plattenschraube und dem Inneren des Schuhs',
  raceStandMaxMm:
    'größte Höhe vom Ski zur Sohle nach den Regeln dieser Saison; sonst gilt eine Zahl aus zweiter Hand, als solche bezeichnet',
  raceSoleMaxMm:
    'größte Höhe der Sohle an der Ferse nach den Regeln dieser Saison; sonst gilt eine Zahl aus zweiter Hand, als solche bezeichnet',
  minHoleEdgeMm: 'geringste Schale zwischen dem Loch eines Drehpunkts und einem Rand',
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
