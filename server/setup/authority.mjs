/** `npm run -s authority -- --renew`: another certificate authority for the server that runs on a data directory. */
import { parseArgs } from 'node:util';
import { ask, fail } from './operator-ask.mjs';

const USAGE = `npm run -s authority -- --prepare | --switch | --renew [--data DIR]

  --prepare  makes the next authority; stations can trust it while the present one works on
  --switch   goes over to the one that was prepared
  --renew    both at once: every station is shut out until it trusts the new one
`;
const STEPS = /** @type {const} */ (['prepare', 'switch', 'renew']);

function readArgs() {
  try {
    const flag = { type: /** @type {const} */ ('boolean'), default: false };
    const { values } = parseArgs({
      options: {
        prepare: flag,
        switch: flag,
        renew: flag,
        data: { type: 'string', default: './data' },
      },
    });
    const [step, ...more] = STEPS.filter((name) => values[name]);
    return step && more.length === 0 ? { step, data: values.data } : fail(USAGE, 2);
  } catch (error) {
    return fail(`${error instanceof Error ? error.message : error}\n${USAGE}`, 2);
  }
}

const OFFER = [
  'On each station, one after the other:',
  '  1. Make a pairing code at the desk, or with: npm run -s code -- --role measuring',
  '     The trust page is open while a code waits.',
  '  2. Open the trust page at the server’s http address, /trust.',
];
const TRUST_NEXT = [
  '  3. Load the next certificate (field 5), compare its fingerprint, and trust it as the first one.',
  'When every station has: npm run -s authority -- --switch',
];
const TRUST_NEW = [
  '  3. Load the certificate, compare its fingerprint, and trust it. Remove the old one where you like.',
  '  4. Open the server’s address again. A station that was paired stays paired.',
  'The old authority is kept in the data directory under tls/old.',
];

const { step, data } = readArgs();
const answer = await ask(data, { do: 'authority', step });
const shown = step === 'prepare' ? answer.next : answer.fingerprint;
const lines = [
  step === 'prepare'
    ? 'The next authority is made; the present one works on.'
    : 'The server shows certificates of the new authority from now on.',
  'Its SHA-256 fingerprint:',
  `  ${shown.slice(0, 48)}`,
  `  ${shown.slice(48)}`,
  ...(answer.uncovered.length > 0 && step !== 'prepare'
    ? [`Not covered: ${answer.uncovered.join(', ')}`]
    : []),
  '',
  ...(step === 'switch' ? ['A station that shows a warning now has not been told yet.'] : []),
  ...OFFER,
  ...(step === 'prepare' ? TRUST_NEXT : TRUST_NEW),
];
process.stdout.write(`${lines.join('\n')}\n`);
