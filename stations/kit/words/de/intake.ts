/** Words of taking somebody in, in German. */
import type * as english from '../intake.ts';

export const intakeWords: typeof english.intakeWords = {
  asLast: (model) => `Wie letztes Mal: ${model}`,
  asLastHint: 'die Beschreibung wird übernommen; wie sie stehen, sieht der Messplatz nach',
  youth: 'Kind oder jugendlich: ein Vormund ist einverstanden',
  guardianAgrees: 'Bei Kindern und Jugendlichen ist ein Vormund mit Arbeit einverstanden, die endgültig ist.',
  guardianMissing:
    'Bei Kindern und Jugendlichen ist ein Vormund mit Arbeit einverstanden, die endgültig ist. Den Vormund wählen.',
  before: 'Früher an diesen Schuhen gemacht',
  beforeWhat: {
    shell: 'Schale bearbeitet',
    pivots: 'Drehpunkte bearbeitet',
    plates: 'Canting-Platten',
    planed: 'Sohle plangefräst',
  },
  beforeNote: (what) => `früher: ${what.join(', ')}`,
  agreeNow: 'Arbeit, die endgültig ist: schon einverstanden',
  keys: 'Strg und Enter von überall',
  openPrint: 'Öffnen und drucken',
  openPrintHint: (boots) => (boots ? 'Abholschein und Schuhanhänger' : 'den Abholschein'),
};
