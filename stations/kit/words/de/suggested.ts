/** Deutsch für ../suggested.ts. */
import type { FloorRole } from '../../../../core/index.ts';

const place: Record<FloorRole, string> = {
  measuring: 'bei der Messung',
  bench: 'an der Werkbank',
  desk: 'am Empfang',
};
export const suggested = {
  today: 'Heute',
  tomorrow: 'Morgen',
  after: (day: string, time: string): string => `${day} nach ${time}`,
  why: (ahead: number, narrow: FloorRole | null, seen: number): string =>
    `${ahead === 0 ? 'Kein Auftrag davor' : `${ahead} ${ahead === 1 ? 'Auftrag' : 'Aufträge'} davor`}` +
    `${narrow ? `; ${place[narrow]} ist es eng` : ''}. ` +
    (seen < 20
      ? 'Noch wenige Aufträge, aus denen zu lernen ist: ein grober Wert.'
      : 'Vier von fünf solchen Aufträgen sind bis dahin fertig.'),
};
