/** `npm run -s pin`: forgets the PIN of the desk's locked corner, so that a new one can be set there. */
import { parseArgs } from 'node:util';
import { ask, fail } from './operator-ask.mjs';

const USAGE = 'npm run -s pin -- [--data DIR]   forgets the PIN of the desk’s locked corner';

function readData() {
  try {
    return parseArgs({ options: { data: { type: 'string', default: './data' } } }).values.data;
  } catch (error) {
    return fail(`${error instanceof Error ? error.message : error}\n${USAGE}`, 2);
  }
}

const { was } = await ask(readData(), { do: 'pin' });
process.stdout.write(
  was
    ? 'The PIN is forgotten, and the corner is locked everywhere. Set a new one at the desk now: whoever opens it first does.\n'
    : 'No PIN is set. Whoever opens the locked corner at a desk first sets one.\n',
);
