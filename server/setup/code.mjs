/** `npm run -s code -- --role measuring`: a pairing code from the server that runs on a data directory. */
import { connect } from 'node:net';
import { parseArgs } from 'node:util';
import { operatorPath } from './operator-path.mjs';

const USAGE = 'npm run -s code -- --role desk|measuring|bench|wall (several: --role desk,bench) [--data DIR]';
const PATIENCE_MS = 5_000;

/** @param {string} line @param {number} code @returns {never} */
function fail(line, code) {
  process.stderr.write(`${line}\n`);
  process.exit(code);
}

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

/** @param {string} data @param {object} command @returns {Promise<any>} the server's answer */
function ask(data, command) {
  return new Promise((resolve, reject) => {
    let text = '';
    const socket = connect(operatorPath(data), () => socket.write(`${JSON.stringify(command)}\n`));
    socket.setEncoding('utf8').setTimeout(PATIENCE_MS, () => socket.destroy(new Error('no answer')));
    socket.on('data', (part) => (text += part));
    socket.once('error', reject);
    socket.once('close', () => {
      try {
        resolve(JSON.parse(text));
      } catch (error) {
        reject(error);
      }
    });
  });
}

const { roles, data } = readArgs();
const answer = await ask(data, { do: 'code', roles }).catch((error) => {
  const nobody = ['ENOENT', 'ECONNREFUSED'].includes(error.code);
  return fail(
    nobody ? `No server runs on ${data}.` : `The server on ${data} does not answer: ${error.message}.`,
    1,
  );
});
if (!answer.ok) fail(answer.text, 1);
process.stdout.write(`${answer.code}\n`);
process.stderr.write(
  `for ${answer.roles.join(', ')}, once, until ${new Date(answer.expiresMs).toLocaleTimeString()}\n`,
);
