/**
 * A picture of every state that the tests walk to in a browser: they run, and where each looks, a picture is taken. So none
 * of these states is one that no test knows.
 */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { packaged, run } from '../helpers/run.mjs';

const TESTS = ['tests/browser', 'tests/stations', 'tests'];
const STATES = 'states';
/** The same state once more: dark, or on another screen. They are looked at by axe and not by readers. */
const AGAIN = /-(dark|light|1024|390)\.jpg$/;
/** A tablet's picture of a page of the desk; the floor's and the bench's own pages have this one only. */
const ON_TABLET = /-1280\.jpg$/;

/** Test files that take pictures, by themselves or by a helper that looks at pages. */
const shooting = (): string[] =>
  TESTS.flatMap((folder) =>
    readdirSync(folder, { recursive: folder !== 'tests', encoding: 'utf8' })
      .filter((file) => file.endsWith('.test.ts'))
      .map((file) => join(folder, file)),
  ).filter((file) => /helpers\/(shots|looks|bench)\.ts/.test(readFileSync(file, 'utf8')));

/** Pictures by the first word of their names, which says where they were taken. */
function index(folder: string): string {
  const names = readdirSync(join(folder, STATES)).sort();
  const groupOf = (name: string) => /^\w+/.exec(name)![0];
  const sections = [...new Set(names.map(groupOf))].map((group) => {
    const pictures = names
      .filter((name) => groupOf(name) === group)
      .map((name) => `![${name.replace('.jpg', '').replaceAll('-', ' ')}](${STATES}/${name})`);
    return `## ${group.charAt(0).toUpperCase()}${group.slice(1)}\n\n${pictures.join('\n')}\n`;
  });
  return `# Screens\n\n${names.length} states of the stations, taken by \`npm run screens\` where the tests walk.\n\n${sections.join('\n')}`;
}

/** Throws when a test fails: a picture of what should not be is none. */
export async function shootStates(folder: string): Promise<void> {
  rmSync(join(folder, STATES), { recursive: true, force: true });
  const env = { ...process.env, FIBULA_SHOTS: join(folder, STATES), FIBULA_SHOTS_AS: 'jpeg' };
  const code = await run(packaged('vitest'), ['run', '--project', 'slow', ...new Set(shooting())], env);
  if (code !== 0) throw new Error('A test has failed, so not every state could be shown.');
  const names = readdirSync(join(folder, STATES));
  const again = (name: string) =>
    AGAIN.test(name) || (ON_TABLET.test(name) && names.includes(name.replace(ON_TABLET, '.jpg')));
  for (const name of names) if (again(name)) rmSync(join(folder, STATES, name));
  writeFileSync(join(folder, 'README.md'), index(folder));
}
