/** The command line. */
import { expect, it } from 'vitest';
import { readOptions } from '../../server/options.ts';

it('has defaults', () => {
  expect(readOptions([])).toMatchObject({
    port: 4180,
    host: undefined,
    data: './data',
    plain: false,
    logLevel: 'info',
  });
});

it('is read', () => {
  const args =
    '--port 0 --host 10.0.0.2 --data /srv/f --plain --name Shop.example --name b --time-zone Europe/Vienna';
  expect(readOptions(args.split(' '))).toMatchObject({
    port: 0,
    host: '10.0.0.2',
    data: '/srv/f',
    plain: true,
    names: ['shop.example', 'b'],
    timeZone: 'Europe/Vienna',
  });
});

it.each([
  [['--port', 'x'], /--port must be a number from 0 to 65535 \(is x\)/],
  [['--port', '70000'], /--port must be a number/],
  [['--port', '-1'], /port/],
  [['--log-level', 'loud'], /--log-level must be .* \(is loud\)/],
  [['--time-zone', 'Mars/Base'], /--time-zone Mars\/Base is no IANA time zone/],
  [['--name', 'two words'], /--name two words is no name of a machine/],
  [['--colour'], /--colour/],
])('with %j is refused, naming what is wrong', (args, message) => {
  expect(() => readOptions(args)).toThrow(message);
});
