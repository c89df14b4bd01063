/** The command line. */
import { expect, it } from 'vitest';
import { STANDARD_LIMITS } from '../../server/limit-table.ts';
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

it('sets the limits that it names, and leaves the others', () => {
  const { limits } = readOptions([
    '--limit',
    'sockets=40',
    '--limit',
    'gapsPer10s=7',
    '--limit',
    'sockets=50',
  ]);
  expect(limits).toEqual({ ...STANDARD_LIMITS, sockets: 50, gapsPer10s: 7 });
});

it.each([
  [['--port', 'x'], /--port must be a number from 0 to 65535 \(is x\)/],
  [['--port', '70000'], /--port must be a number/],
  [['--port', '-1'], /port/],
  [['--log-level', 'loud'], /--log-level must be .* \(is loud\)/],
  [['--time-zone', 'Mars/Base'], /--time-zone Mars\/Base is no IANA time zone/],
  [['--name', 'two words'], /--name two words is no name of a machine/],
  [['--colour'], /--colour/],
  [['--limit', 'requestsPer10s'], /--limit must be name=value, like .* \(is requestsPer10s\)/],
  [['--limit', 'colour=3'], /--limit colour is no limit of this server; there are connections, /],
  [['--limit', 'toString=3'], /--limit toString is no limit of this server/],
  [['--limit', 'sockets=1'], /--limit sockets must be a whole number from 10 to 100000 connections \(is 1\)/],
  [['--limit', 'sockets=1e3'], /--limit sockets must be a whole number .* \(is 1e3\)/],
  [['--limit', 'sockets='], /--limit sockets must be a whole number/],
  [
    ['--limit', 'headerSeconds=60'],
    /--limit headerSeconds \(60\) may not be more than requestSeconds \(30\)/,
  ],
])('with %j is refused, naming what is wrong', (args, message) => {
  expect(() => readOptions(args)).toThrow(message);
});
