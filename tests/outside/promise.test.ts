/** What was promised, against shops of which everything is known: how often it was ready by then. */
import { expect, it } from 'vitest';
import { SHOPS, simulate } from '../study/queue/shop.ts';

it('[QUE-6] an 80 % promise is kept in about 80 % of cases by simulated shops that it learns from', () => {
  const shops = ['a quiet shop', 'a busy shop'].map((name) => SHOPS[name]!);
  const each = shops.flatMap((shop) => [3, 6].map((seed) => simulate(shop, 120, seed, 100, 60)));
  const told = each.reduce((sum, { told }) => sum + told, 0);
  const kept = each.reduce((sum, one) => sum + one.kept * one.told, 0) / told;
  const percents = each.map((one) => `${Math.round(100 * one.kept)} %`).join(', ');
  console.log(`promises kept: ${Math.round(100 * kept)} % of ${told} (${percents})`);
  // Those who are in the shop together are late together: 480 customers say as much as some 150 apart.
  expect(kept).toBeGreaterThan(0.7);
  expect(kept).toBeLessThan(0.9);
}, 120_000);
