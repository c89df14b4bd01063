/**
 * `sqlite3`, which only hocuspocus needs: compiling it takes longer than installing all the rest, so it is done here, once,
 * and not at every install.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT, run } from '../../../helpers/run.mjs';

const COMPILED = join(ROOT, 'node_modules', 'sqlite3', 'build', 'Release', 'node_sqlite3.node');

/** Throws where it cannot be compiled. */
export async function compileSqlite3(): Promise<void> {
  if (existsSync(COMPILED)) return;
  process.stderr.write('compiling sqlite3 for hocuspocus, once\n');
  // The policy in package.json keeps its script from running at an install; this is the one package named here.
  const rebuild = ['rebuild', 'sqlite3', '--dangerously-allow-all-scripts'];
  const code = await run('npm', rebuild, process.env, 2); // a table in JSON may follow on standard output
  if (code !== 0 || !existsSync(COMPILED))
    throw new Error('sqlite3 could not be compiled: see the output above');
}
