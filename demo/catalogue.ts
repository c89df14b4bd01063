/** The boots that the made-up shop sells, in its catalogue: those of its skiers, and two of more lean. */
import { deg, mm } from '../core/index.ts';
import type { CatalogueBoot } from '../core/index.ts';
import { grat, kar, nadel, tarn } from './boots.ts';
import type { BootModel } from './boots.ts';
import type { Shop } from './shop.ts';

const SOURCE = 'invented for the demo';

/** A model without what is one boot's own. */
function model({ mondo: _mondo, soleLengthMm: _sole, inserts: _inserts, ...rest }: BootModel): CatalogueBoot {
  return { ...rest, source: SOURCE };
}

/** The same hardware upright or outward from the factory, under another name. */
const leaning = (of: BootModel, name: string, factoryLeanDeg: number): CatalogueBoot => ({
  ...model(of),
  model: name,
  hardware: { ...of.hardware, factoryLeanDeg: deg(factoryLeanDeg) },
});

export const CATALOGUE: readonly CatalogueBoot[] = [
  model(tarn(265)),
  leaning(tarn(265), 'Ombrik Tarn 110 Curve', 3.5),
  model(nadel(265)),
  leaning(nadel(265), 'Sedrax Nadel 95 Wide', 2),
  model(grat(265)),
  model(kar(265)),
  {
    ...leaning(kar(265), 'Sedrax Kar Tour Long', 2.5),
    hardware: {
      ...kar(265).hardware,
      factoryLeanDeg: deg(2.5),
      slotsMayLengthen: true,
      minHoleEdgeMm: mm(6),
    },
  },
];

export async function enterCatalogue(shop: Shop): Promise<void> {
  for (const boot of CATALOGUE) await shop.desk.request('PUT', '/api/models', boot);
}
