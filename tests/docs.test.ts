/** What the documents say is what the program does. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { plan, readSession } from '../core/index.ts';
import type { Plan } from '../core/index.ts';
import { calcPage } from './helpers/calc-page.ts';
import { fieldsPage } from './helpers/field-table.ts';
import { limitsPage } from './helpers/limits-page.ts';
import { stalenessPage } from './helpers/staleness-page.ts';

const examples = readdirSync('docs/examples').filter((name) => name.endsWith('.json'));
const scratch = mkdtempSync(join(tmpdir(), 'fibula-docs-'));
afterAll(() => rmSync(scratch, { recursive: true }));

const planOf = (file: string): Plan =>
  JSON.parse(execFileSync('npm', ['run', '-s', 'plan', '--', file], { encoding: 'utf8' })) as Plan;

describe('docs', () => {
  it.each([
    ['docs/fields.md', fieldsPage],
    ['docs/calc.md', calcPage],
    ['docs/staleness.md', stalenessPage],
    ['docs/limits.md', limitsPage],
  ])('%s is what the code says', (path, page) => {
    if (process.env['FIBULA_DOCS'] === 'write') writeFileSync(path, page());
    expect(readFileSync(path, 'utf8')).toBe(page());
  });

  it.each(examples)('the plan command reads %s, and says what the core says', (name) => {
    const file = join('docs/examples', name);
    const read = readSession(JSON.parse(readFileSync(file, 'utf8')));
    if (!read.ok) throw new Error(read.error);
    expect(planOf(file)).toEqual(JSON.parse(JSON.stringify(plan(read.file.facts))));
  });

  it('the examples show what their names say', () => {
    const cuff = (name: string) => planOf(`docs/examples/${name}.json`).sides.left.cuff;
    expect(cuff('first-readings')).toMatchObject({ verdict: 'uneven', limitedBy: 'marks' });
    expect(cuff('press-on-single-pivot')).toMatchObject({ verdict: 'contact', bound: 'at-least' });
    expect(cuff('out-of-travel')).toMatchObject({ verdict: 'out-of-travel' });
    expect(cuff('stale-after-footbed')).toMatchObject({ verdict: 'unread', reading: { stale: true } });
    expect(cuff('two-stations-disagree')).toMatchObject({ set: null });
    expect(cuff('canted-sole-refused')).toMatchObject({ verdict: 'unread', correctionDeg: null });
    expect(
      planOf('docs/examples/two-rounds-to-even.json').steps.every((step) => step.status === 'done'),
    ).toBe(true);
  });

  it.each([
    ['no JSON', '{', /JSON/],
    [
      'a gap of 900 mm',
      JSON.stringify({ format: 'fibula-session/1', facts: [broken()] }),
      /fact f9 \(cuff\.read\): medialMm: must be at most 60 \(is 900\)/,
    ],
    ['another format', '{"format":"other"}', /format: must be fibula-session\/1/],
  ])('[FAC-5] %s gives one line and exit 2', (_, text, says) => {
    const file = join(scratch, 'broken.json');
    writeFileSync(file, text);
    const { status, stdout, stderr } = spawnSync('npm', ['run', '-s', 'plan', '--', file], {
      encoding: 'utf8',
    });
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toMatch(says);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  });

  it('a reader that stops early ends the command quietly', () => {
    const file = 'docs/examples/two-rounds-to-even.json';
    const command = `npm run -s plan -- --explain ${file} | head -1; echo "\${PIPESTATUS[@]}"`;
    const { stdout, stderr } = spawnSync('bash', ['-c', command], { encoding: 'utf8' });
    expect(stdout).toBe('{\n0 0\n');
    expect(stderr).toBe('');
  });

  it('[FAC-5] a missing file gives one line and exit 2', () => {
    const { status, stderr } = spawnSync('npm', ['run', '-s', 'plan', '--', join(scratch, 'nowhere.json')], {
      encoding: 'utf8',
    });
    expect(status).toBe(2);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  });
});

function broken(): object {
  const example = JSON.parse(readFileSync('docs/examples/first-readings.json', 'utf8')) as {
    facts: { kind: string }[];
  };
  return { ...example.facts.find((fact) => fact.kind === 'cuff.read')!, id: 'f9', medialMm: 900 };
}
