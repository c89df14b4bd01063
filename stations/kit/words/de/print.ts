/** Words of the sheet on which a paper is chosen, in German. */
import type * as english from '../print.ts';

export const paperWord: typeof english.paperWord = {
  booking: 'Terminkarte',
  ticket: 'Abholschein',
  tags: 'Schuhanhänger',
  inside: 'Etiketten in den Schuh',
  bench: 'Werkbankkarte',
  card: 'Einstellkarte',
  record: 'Werkstattprotokoll',
};

export const print: typeof english.print = {
  open: 'Drucken',
  title: 'Drucken',
  due: (papers) => `fällig: ${papers.join(', ')}`,
  which: 'Welches Papier',
  dueNow: '● jetzt fällig',
  roll: (width) => `Bonrolle, ${width} mm`,
  folded: 'A4, auf A5 gefaltet',
  language: 'Sprache des Papiers',
  on: 'Gedruckt auf',
  rolls: { receipt: 'Bonrolle', a6: 'Karte, A6' },
  boots: 'Welche Schuhe',
  both: 'beide',
  state: 'Welcher Stand',
  now: 'wie er jetzt ist',
  handedOver: (when) => `wie übergeben, ${when}`,
  leftUnfit: (when) => `wie nicht fahrbereit abgegeben, ${when}`,
  go: 'Drucken',
  goHint: 'der Browser fragt nach dem Drucker; Größe 100 %, Ränder keine',
  preview: 'Das Papier, wie es gedruckt wird',
  coming: 'Das Papier wird gezeichnet.',
  running: (papers) => `Geht an den Drucker: ${papers.join(', dann ')}.`,
};
