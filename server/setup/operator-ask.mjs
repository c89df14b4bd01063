/** A command of the operator, asked of the server that runs on a data directory. */
import { connect } from 'node:net';
import { operatorPath } from './operator-path.mjs';

const PATIENCE_MS = 5_000;

/** @param {string} line @param {number} code @returns {never} */
export function fail(line, code) {
  process.stderr.write(`${line}\n`);
  process.exit(code);
}

/** @param {string} data @param {object} command @returns {Promise<any>} */
function converse(data, command) {
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

/**
 * The server's answer; ends the program with one line when there is no server, or it says no.
 *
 * @param {string} data @param {object} command @returns {Promise<any>}
 */
export async function ask(data, command) {
  const answer = await converse(data, command).catch((error) =>
    fail(
      ['ENOENT', 'ECONNREFUSED'].includes(error.code)
        ? `No server runs on ${data}.`
        : `The server on ${data} does not answer: ${error.message}.`,
      1,
    ),
  );
  return answer.ok ? answer : fail(answer.text, 1);
}
