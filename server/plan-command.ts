/**
 * `npm run -s plan -- FILE`: a session file in, its plan on standard output as JSON, exit 0. A file it cannot use:
 * one line on standard error that names the fact and the field, exit 2.
 */
import { readFileSync } from 'node:fs';
import { plan, readSession } from '../core/index.ts';

function fail(line: string): never {
  process.stderr.write(`${line.replace(/\s+/g, ' ')}\n`);
  process.exit(2);
}

const [file, ...rest] = process.argv.slice(2);
if (!file || rest.length) fail('usage: npm run -s plan -- FILE');

let json: unknown;
try {
  json = JSON.parse(readFileSync(file, 'utf8'));
} catch (error) {
  fail(`${file}: ${error instanceof Error ? error.message : String(error)}`);
}
const session = readSession(json);
if (!session.ok) fail(`${file}: ${session.error}`);
process.stdout.write(`${JSON.stringify(plan(session.file.facts), null, 2)}\n`);
