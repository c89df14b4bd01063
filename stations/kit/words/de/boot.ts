/** Words about boots, in German. */
import type * as english from '../boot.ts';

export const itemWord: typeof english.itemWord = {
  footbed: 'Fußbett',
  shell: 'Platz in der Schale',
  'cuff-neutral': 'Schaft auf Werksneutral',
  'sole-flat': 'Sohle steht flach',
  'pivot-play': 'Drehpunkte ohne Spiel',
  'buckles-strap': 'Schnallen und Powerstrap in Ordnung',
  liner: 'Innenschuh drin und richtig herum',
  'heel-seated': 'Ferse sitzt',
  'walk-lock': 'Gehmechanik verriegelt',
};

export const outcomeWord: typeof english.outcomeWord = {
  done: 'erledigt',
  'not-needed': 'nicht nötig',
  'kept-as-found': 'wie vorgefunden belassen',
  open: 'zu tun',
};

export const hardware: typeof english.hardware = {
  pivots: { dual: 'Zwei Versteller', single: 'Ein Versteller', fixed: 'Feste Drehpunkte' },
  pivotsHint: { dual: 'außen und innen', single: 'nur außen', fixed: 'nicht verstellbar' },
};

export const bootForm: typeof english.bootForm = {
  title: 'Die Schuhe',
  one: (side) => `Schuh ${side.toLowerCase()}`,
  both: 'Gleicher Schuh auf beiden Seiten',
  bothHint: 'Nur Modell, Größe und Verstellung. Messwerte werden nie von einer Seite auf die andere kopiert.',
  model: 'Modell',
  mondo: 'Mondopoint',
  mondoHint: 'in Zentimetern (26,5) oder Millimetern (265)',
  soleLength: 'Sohlenlänge',
  soleStandard: 'Sohlennorm',
  standards: {
    'iso5355-a': 'ISO 5355 A: Alpin, Erwachsene',
    'iso5355-c': 'ISO 5355 C: Alpin, Kinder',
    'iso23223-a': 'ISO 23223 A: Grip Walk, Erwachsene',
    'iso23223-c': 'ISO 23223 C: Grip Walk, Kinder',
    'iso9523-a': 'ISO 9523 A: Tour, Erwachsene',
    'iso9523-c': 'ISO 9523 C: Tour, Kinder',
    other: 'Andere Sohle',
  },
  pivots: 'Verstellung am Drehpunkt',
  spacing: 'Abstand der Drehpunkte',
  spacingHint: 'quer über den Schuh, Mitte zu Mitte',
  height: 'Messhöhe',
  heightHint: 'über der Linie der Drehpunkte',
  lean: 'Neigung ab Werk',
  leanHint: 'nach außen ist plus; leer: unbekannt',
  travel: 'Verstellweg ab Werksneutral',
  lateralUp: 'Außen hoch',
  lateralDown: 'Außen tief',
  medialUp: 'Innen hoch',
  medialDown: 'Innen tief',
  mark: 'Ein Strich',
  markHint: 'leer: keine',
  lateralPlaces: 'Stellungen außen',
  medialPlaces: 'Stellungen innen',
  placesHint: 'nur bei ungleichen Strichen: A −4; B 0; C 3,5',
  walkMode: 'Mit Gehmechanik',
  known: 'Schuhe, die schon so beschrieben wurden',
  save: 'Beide Schuhe eintragen',
  saveOne: (side) => `Schuh ${side} eintragen`,
  missing: (labels) => `Fehlt noch: ${labels.join(', ')}.`,
  standardShort: 'Norm',
};
