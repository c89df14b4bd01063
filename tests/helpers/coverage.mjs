/**
 * `npm run coverage -- NAME`: how much of one part its own tests reach. It fails where they leave a branch out: what no
 * test reaches there is tested or taken out.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readyPackages } from './ready-packages.mjs';
import { packaged, run } from './run.mjs';

/** @type {Record<string, { files: string[], tests: string[] }>} */
const PARTS = {
  gate: {
    files: ['server/gate*.ts', 'server/frames.ts'],
    tests: ['tests/server/gate.test.ts', 'tests/server/gate-attacks.test.ts', 'tests/server/frames.test.ts'],
  },
};

const part = PARTS[process.argv[2] ?? ''];
if (!part) {
  process.stderr.write(`usage: npm run coverage -- ${Object.keys(PARTS).join('|')}\n`);
  process.exitCode = 2;
} else {
  await readyPackages();
  const reports = mkdtempSync(join(tmpdir(), 'fibula-coverage-'));
  try {
    process.exitCode = await run(packaged('vitest'), [
      'run',
      '--project=fast',
      ...part.tests,
      '--coverage.enabled',
      '--coverage.provider=v8',
      ...part.files.map((file) => `--coverage.include=${file}`),
      '--coverage.reporter=text',
      `--coverage.reportsDirectory=${reports}`,
      '--coverage.thresholds.perFile',
      '--coverage.thresholds.branches=100',
    ]);
  } finally {
    rmSync(reports, { recursive: true, force: true });
  }
}
