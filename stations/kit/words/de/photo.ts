/** Words about photos, in German. */
import type * as english from '../photo.ts';
import type { Group } from '../../photo/groups.ts';
import { of, Sided } from './sides.ts';

const showsWord = { leg: 'Bein und Schaft', gap: 'Spalt', boot: 'Schuh' };
const groups: Readonly<Record<Group, string>> = {
  scale: 'Maßstab',
  legAxis: 'Beinachse',
  cuffAxis: 'Schaftachse',
  gap: 'Spalt',
};

export const photo: typeof english.photo = {
  ask: 'Erst fragen. Nur Bein und Schuh, kein Gesicht. Ein Foto wird mit den Daten des Kunden gelöscht.',
  aid: 'Ein Foto ist eine Hilfe. Es ersetzt nicht das Messen des Spalts am Schuh.',
  plane: 'Karte oder Blatt in die Ebene dessen halten, was gemessen wird: Was näher ist, sieht größer aus.',
  leg: 'Welches Bein',
  shows: 'Was es zeigt',
  showsWord,
  take: (side) => `Foto vom ${of(side, 'en')} Bein machen`,
  none: 'Noch keine Fotos dieser Sitzung. Oben lässt sich eines machen.',
  noneYet: 'Noch keine Fotos dieser Sitzung. Sie werden am Messplatz und an der Werkbank gemacht.',
  unmarked: 'In diesem Foto hat niemand gemessen.',
  look: 'Ansehen',
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
    'Zurückgenommen, aber weder dieses Gerät noch der Server konnte vermerken, dass das Bild weg soll. Der Theke Bescheid geben: Sie kann die Daten des Kunden löschen.',
  groups,
  group: 'Punkte von',
  scale: 'Maßstab durch',
  scales: { card: 'Karte 85,6 × 54', a4: 'A4-Blatt', rectangle: 'Anderes Rechteck', length: 'Zwei Punkte' },
  length: 'Abstand der beiden Punkte',
  longer: 'Längere Seite',
  shorter: 'Kürzere Seite',
  gapBy: 'Spalt',
  gapsBy: { points: 'Zwischen zwei Punkten', line: 'Punkt zu Linie' },
  from: 'Aufgenommen von',
  froms: { front: 'vorne', behind: 'hinten' },
  hint: 'Einen Punkt ziehen oder mit den Pfeiltasten bewegen, mit Umschalt zehnmal so weit. Die Lupe zeigt, wo er ist.',
  point: (group, index, of) =>
    of === 3
      ? `${groups[group]}, ${index === 0 ? 'Punkt' : `Linie, Ende ${index}`}`
      : `${groups[group]}, Punkt ${index + 1}`,
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
  leans: (lean, clockwise) =>
    `Schaft neigt sich vom Bein nach ${lean === 'outward' ? 'außen' : 'innen'} (${clockwise ? 'im' : 'gegen den'} Uhrzeigersinn gesehen)`,
};
