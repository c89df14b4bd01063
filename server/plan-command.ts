/**
 * `npm run -s plan -- FILE`: a session file in, its plan on standard output as JSON, exit 0. With `--explain` before
 * the file, where each of the plan's numbers comes from and why the others are null, in its place. A file it cannot
 * use: one line on standard error that names the fact and the field, exit 2.
 */
import { readFileSync } from 'node:fs';
import { explain, EXPLANATION_FORMAT, plan, readSession } from '../core/index.ts';
import { fail, print } from './output.ts';

const given = process.argv.slice(2);
const explained = given[0] === '--explain';
const [file, ...rest] = explained ? given.slice(1) : given;
if (!file || rest.length) fail('usage: npm run -s plan -- [--explain] FILE');

let json: unknown;
try {
  json = JSON.parse(readFileSync(file, 'utf8'));
} catch (error) {
  fail(`${file}: ${error instanceof Error ? error.message : String(error)}`);
}
const session = readSession(json);
if (!session.ok) fail(`${file}: ${session.error}`);
const { facts } = session.file;
const planned = plan(facts);
const answer = explained
  ? { format: EXPLANATION_FORMAT, numbers: explain(facts), unknown: planned.reasons }
  : planned;
print(answer);
