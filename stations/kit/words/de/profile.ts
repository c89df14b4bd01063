/** What the drawings of a sole's work say, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../profile.ts';

export const profile: typeof english.profile = {
  title: (zone) => `${zone}, quer geschnitten`,
  seen: (over) => (over ? 'von der Ferse gesehen, kopfüber' : 'von der Ferse gesehen'),
  times: (n) => (n === 1 ? 'maßstäblich' : `Höhen × ${n}`),
  plate: 'Platte',
  planed: 'plan abnehmen',
  lifter: 'Unterlagsplatte',
  rout: 'oben am Sohlenrand abfräsen',
  left: 'Sohlenrand, der bleibt',
  key: {
    plate: 'Unten: Platte, Dicke an beiden Seiten in mm.',
    planed: 'Unten: was an beiden Seiten plan abgenommen wird, in mm.',
    lifter: (mm) => `Dann eine flache Unterlagsplatte von ${shown(mm, 2)} mm.`,
    rout: 'Oben, schraffiert: was vom Sohlenrand abgefräst wird, in mm.',
    left: 'In der Lücke des Bilds: was vom Sohlenrand bleibt, in mm.',
    noRout: 'Fräsen auf Sohlennorm: nicht vorgegeben.',
  },

  screws: 'Schrauben: Länge in mm',
  screwsHint: 'Lang genug, um zu greifen, und die Spitze außerhalb des Schuhs.',
  window: (min, max) => `${shown(min)} bis ${shown(max)} mm`,
  useful: (mm) => `über ${shown(mm)} mm greift nicht besser`,
  atLeast: (min) => `mindestens ${shown(min)} mm`,
  inside: 'Spitze im Schuh',
  under: (cant) => `Jetzt unter dem Schuh: ${cant}`,
};
