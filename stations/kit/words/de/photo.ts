/** Words about photos, in German. */
import type * as english from '../photo.ts';
import type { Group } from '../photo.ts';
import { of, Sided } from './sides.ts';

const showsWord = { leg: 'Bein und Schaft', gap: 'Spalt', boot: 'Schuh' };
const groups: Readonly<Record<Group, string>> = {
  scale: 'Maßstab',
  legAxis: 'Beinachse',
  cuffAxis: 'Schaftachse',
  gap: 'Spalt',
};

export const photo: typeof english.photo = {
  open: 'Fotos',
  title: 'Fotos',
  ask: 'Erst fragen. Nur Bein und Schuh, kein Gesicht. Ein Foto wird mit den Daten des Kunden gelöscht.',
  aid: 'Ein Foto ist eine Hilfe. Es ersetzt nicht das Messen des Spalts am Schuh.',
  plane: 'Karte oder Blatt in die Ebene dessen halten, was gemessen wird: Was näher ist, sieht größer aus.',
  leg: 'Welches Bein',
  shows: 'Was es zeigt',
  showsWord,
  take: (side) => `Foto vom ${of(side, 'en')} Bein machen`,
  none: 'Noch keine Fotos dieser Sitzung.',
  named: (side, shows, number) => `Foto ${number}: ${Sided(side)}, ${showsWord[shows]}`,
  waiting: 'wartet: nur auf diesem Gerät',
  stored: 'gespeichert',
  away: 'Das Bild ist nicht hier: Es wartet noch auf dem Gerät, das es gemacht hat, oder wurde gelöscht.',
  unreadable: 'Diese Datei ist nicht als Bild lesbar. Das Foto noch einmal machen.',
  noRoom: 'Dieses Gerät hat keinen Platz für das Foto. Platz schaffen, dann noch einmal machen.',
  measure: 'Messen',
  back: 'Alle Fotos',
  takeBack: 'Dieses Foto zurücknehmen',
  takenBack: 'Foto zurückgenommen',
  notGone:
    'Der Server konnte nicht gebeten werden, es zu löschen. Noch einmal versuchen, wenn er wieder da ist.',
  groups,
  group: 'Punkte von',
  scale: 'Maßstab durch',
  scales: { card: 'Karte 85,6 × 54', a4: 'A4-Blatt', length: 'Zwei Punkte' },
  length: 'Abstand der beiden Punkte',
  hint: 'Einen Punkt ziehen oder mit den Pfeiltasten bewegen. Die Lupe zeigt, wo er ist.',
  point: (group, index) => `${groups[group]}, Punkt ${index + 1}`,
  loupe: 'Lupe',
  x: 'Quer',
  y: 'Abwärts',
  angle: 'Schaft gegen Bein',
  gap: 'Spalt',
  missing: { angle: 'Beide Achsen setzen.', gap: 'Die beiden Enden des Spalts setzen.' },
  use: (place) => `Als Spalt ${place === 'medial' ? 'innen' : 'außen'} nehmen`,
  useHint: 'kommt in die Messung, die Sie dann eintragen',
  unsure: 'Das ist weniger sicher als ein Spalt, der am Schuh gemessen ist.',
  save: 'Diese Punkte behalten',
  kept: 'Punkte behalten.',
};

export const why: typeof english.why = {
  'too-near': 'Zwei Punkte liegen zu nah beieinander.',
  'on-one-line': 'Drei Ecken liegen auf einer Linie.',
  crossed: 'Die Ecken kreuzen sich. Rundherum gehen: ein Punkt auf jede Ecke.',
  'past-horizon': 'Ein Punkt liegt nicht in der Ebene der Karte.',
};

export const turn: typeof english.turn = {
  parallel: 'parallel',
  clockwise: 'im Uhrzeigersinn gesehen',
  anticlockwise: 'gegen den Uhrzeigersinn gesehen',
};
