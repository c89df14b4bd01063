/**
 * Places of the foot in German, apart from the map that shows them, since sentences of the plan name them too. Long ones may
 * be broken where their label on the map is narrow.
 */
import type * as english from '../foot.ts';

export const landmarkShort: typeof english.landmarkShort = {
  'great toe': 'Groß\u00adzehe',
  'middle toes': 'Zehen',
  'little toe': 'Klein\u00adzehe',
  'first metatarsal head': 'Ballen innen',
  'fifth metatarsal head': 'Ballen außen',
  instep: 'Rist',
  'medial malleolus': 'Innenknöchel',
  navicular: 'Kahnbein',
  arch: 'Gewölbe',
  'heel spur': 'Fersensporn',
  shin: 'Schienbein',
  'lateral malleolus': 'Außenknöchel',
  'fifth metatarsal base': 'Mittelfuß außen',
  'heel bump': 'Fersen\u00adhöcker',
  'Achilles tendon': 'Achilles\u00adsehne',
  calf: 'Wade',
};

export const landmarkWord: typeof english.landmarkWord = {
  ...landmarkShort,
  'middle toes': 'mittlere Zehen',
  'first metatarsal head': 'Ballen innen (Großzehenballen)',
  'fifth metatarsal head': 'Ballen außen (Kleinzehenballen)',
  'heel spur': 'Fersensporn, unter der Ferse',
  shin: 'Schienbein, oben an der Zunge',
  'fifth metatarsal base': 'Mittelfuß außen (Basis des fünften Mittelfußknochens)',
  'heel bump': 'Fersen\u00adhöcker, hinter der Ferse',
  calf: 'Wade, am oberen Schaftrand',
};
