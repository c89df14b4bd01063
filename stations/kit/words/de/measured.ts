/** Words of measuring a boot model here, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../measured.ts';

export const measured: typeof english.measured = {
  open: 'Ein Modell hier messen',
  title: 'Ein Schuhmodell, hier gemessen',
  lead: 'Eine Zahl nach der anderen, jede zweimal: Dazwischen kommt der Messschieber weg. Einen neuen Schuh nehmen oder einen, an dessen Drehpunkten und Sohle niemand gearbeitet hat.',
  by: 'Gemessen von, Kürzel',
  start: 'Mit dem Messen beginnen',
  startMissing: 'Noch nötig: das Modell, wer misst und die Art der Drehpunkte.',
  names: {
    spacing: 'Abstand der Drehpunkte',
    height: 'Messhöhe',
    lean: 'Neigung ab Werk',
    lateralUp: 'Versteller außen, nach oben',
    lateralDown: 'Versteller außen, nach unten',
    medialUp: 'Versteller innen, nach oben',
    medialDown: 'Versteller innen, nach unten',
    mark: 'Ein Strich',
    edge: 'Loch bis Kante',
    toeWidth: 'Sohlenbreite vorn',
    heelWidth: 'Sohlenbreite hinten',
    zones: 'Zwischen den Auflagen',
    material: 'Material der Sohle',
  },
  how: {
    spacing:
      'Quer über den Schuh, von der Mitte des einen Drehpunkts zur Mitte des anderen; über die Außenkanten beider Schrauben, abzüglich einer Schraubenbreite.',
    height:
      'Von der Linie durch beide Drehpunkte senkrecht hinauf, wo die Spalte gemessen werden: zur Oberkante des Schafts an seiner Seite.',
    lean: 'Von hinten, beide Drehpunkte auf Werksneutral, Sohle flach: wie weit die Mittellinie des Schafts vom Lot abweicht. Nach außen ist plus.',
    lateralUp:
      'Von Werksneutral bis zum oberen Ende des Langlochs, entlang des Lochs: jeweils die Schraubenmitte.',
    lateralDown:
      'Von Werksneutral bis zum unteren Ende des Langlochs, entlang des Lochs: jeweils die Schraubenmitte.',
    medialUp: 'An der Innenseite, von Werksneutral bis zum oberen Ende des Langlochs.',
    medialDown: 'An der Innenseite, von Werksneutral bis zum unteren Ende des Langlochs.',
    mark: 'Über so viele Striche, wie da sind, dann durch ihre Zahl geteilt. Weglassen, wo Striche ungleich sind, und am Ende die Stellungen eintippen.',
    edge: 'Vom Ende des Langlochs zur nächsten Kante der Schale: was bliebe, würde es verlängert.',
    toeWidth: 'Quer über die Sohle, wo die Bindung vorn hält, von Kante zu Kante.',
    heelWidth: 'Quer über die Sohle, wo die Bindung hinten hält, von Kante zu Kante.',
    zones: 'Entlang der Sohle, von der Mitte der vorderen Auflage zur Mitte der hinteren.',
    material:
      'Von der Unterseite der Sohle hinauf zum Inneren des Schuhs, wo es am dünnsten ist: mit langen Schenkeln, oder Tiefe innen und Höhe außen.',
  },
  pictures: {
    rear: 'Der Schuh von hinten.',
    side: 'Der Schuh von der Seite.',
    slot: 'Ein Versteller von seiner Seite, mit Langloch und Strichen.',
    sole: 'Die Sohle von unten, Spitze rechts.',
    cut: 'Ein Schnitt durch Schale und Sohle.',
  },
  step: (at, of) => `Zahl ${at} von ${of}`,
  first: 'Erstes Mal',
  second: 'Zweites Mal',
  secondHint: 'Den Messschieber wegnehmen und neu ansetzen.',
  covered: 'Die erste ist verdeckt, bis die zweite da ist.',
  next: 'Weiter zur nächsten',
  skip: 'Unbekannt lassen',
  missing: 'Zweimal messen, oder unbekannt lassen, wo das geht.',
  apart: (apart, usual, unit) =>
    `Die beiden liegen ${shown(apart, 2)} ${unit} auseinander; mehr als ${shown(usual, 2)} ${unit} ist hier ungewöhnlich. Saß der Messschieber gleich?`,
  again: 'Beide noch einmal messen',
  keepMean: (mean, unit) => `Es ist so: ${shown(mean, 2)} ${unit} behalten`,
  back: 'Einen Schritt zurück',
  summary: 'Was gemessen wurde',
  unknown: 'nicht gemessen',
  value: (mean, apart, unit) =>
    `${shown(mean, 2)} ${unit}, zwei Messungen ${shown(apart, 2)} ${unit} auseinander`,
  placesLead: 'Nur wo ein Versteller Stellungen hat, die keine gleichen Striche sind:',
  placesWrong: 'So lassen sich Stellungen nicht lesen: A −4; B 0; C 3,5, jeder Name einmal.',
  keep: 'In den Katalog aufnehmen',
  source: (by, day) => `hier gemessen von ${by} am ${day}, jede Zahl zweimal`,
  caution:
    'Die Angabe des Herstellers geht einer hier gemessenen vor. Wo Arbeit dem Schuh schaden kann, den Hersteller fragen.',
};

export const standards: typeof english.standards = {
  title: 'Grenzen der Sohlen, und woher sie kommen',
  lead: 'An ihnen wird eine fertige Sohle gemessen. Was niemand hat, wird nicht geprüft, und das wird gesagt. Mit der eigenen Ausgabe der Norm vergleichen; die Anleitung des Herstellers und eine geprüfte Fachkraft gehen dieser Tabelle vor.',
  standard: 'Sohle',
  place: 'Wo',
  limit: 'Grenze',
  from: 'Woher sie kommt',
  places: {
    toeHeight: 'vorn, Höhe des Sohlenrands',
    toeWidth: 'vorn, Breite',
    heelHeight: 'hinten, Höhe des Sohlenrands',
    heelWidth: 'hinten, Breite',
  },
  parallel: 'wie parallel beide Kanten sind',
  range: (min, max) => `${shown(min)} bis ${shown(max)} mm`,
  none: 'niemand hat eine: nicht geprüft',
  noneOf: (places) => `Keine Grenze bekannt für: ${places}. Nicht geprüft.`,
  shopTitle: 'Eigene Werte der Werkstatt für Arbeit an der Sohle',
  shopNone: 'nicht eingetragen: Was sie braucht, wird nicht angesagt',
  entered: (by, when) => `eingetragen an ${by}, ${when}`,
  enteredBefore: 'eigener Wert; wer ihn eintrug, wurde damals nicht vermerkt',
  instead: (was) => `davor: ${was}`,
  corner: 'Eingetragen werden sie in der gesperrten Ecke, unter „Einstellungen“.',
};
