/** The storm of restores, in short. */
import { expect, it } from 'vitest';
import { restoreStorm } from './restores.ts';

const SEED = Number(process.env['FIBULA_SEED'] ?? 20260109);

it(`a backup restored under twelve stations that hold later entries loses none of them (seed ${SEED})`, async () => {
  const report = await restoreStorm(SEED);
  expect(report.breaks).toEqual([]);
  expect(report).toMatchObject({ lost: 0, twice: 0, sessions: 5, young: 2 });
  // It was a storm: much was saved after the backup, and more was entered while the server was away.
  expect(report.later).toBeGreaterThan(20);
  expect(report.acknowledged).toBeGreaterThan(report.later);
  expect(report.entered).toBeGreaterThan(report.acknowledged);
}, 400_000);
