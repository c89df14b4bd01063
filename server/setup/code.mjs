/** `npm run -s code -- --role measuring`: a pairing code from the server that runs on a data directory. */
import { parseArgs } from 'node:util';
import { ask, fail } from './operator-ask.mjs';

const USAGE = 'npm run -s code -- --role desk|measuring|bench|wall (several: --role desk,bench) [--data DIR]';

function readArgs() {
  try {
    const { values } = parseArgs({
      options: {
        role: { type: 'string', multiple: true, default: [] },
        data: { type: 'string', default: './data' },
      },
    });
    const roles = values.role
      .flatMap((list) => list.split(','))
      .map((role) => role.trim())
      .filter(Boolean);
    return roles.length > 0 ? { roles, data: values.data } : fail(USAGE, 2);
  } catch (error) {
    return fail(`${error instanceof Error ? error.message : error}\n${USAGE}`, 2);
  }
}

const { roles, data } = readArgs();
const answer = await ask(data, { do: 'code', roles });
process.stdout.write(`${answer.code}\n`);
process.stderr.write(
  `for ${answer.roles.join(', ')}, once, until ${new Date(answer.expiresMs).toLocaleTimeString()}\n`,
);
