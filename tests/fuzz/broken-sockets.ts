/** Upgraded sockets on which come bytes that are no frames of the protocol beneath ours. */
import { PROTOCOL } from '../../core/index.ts';
import { exchange } from './bare.ts';
import type { HttpTally, HttpTarget } from './bare.ts';
import type { Chance } from './chance.ts';

/** An upgrade by a paired station, and then bytes that break the protocol of the frames themselves. */
export async function oneBrokenSocket(
  chance: Chance,
  target: HttpTarget,
  room: string,
  tally: HttpTally,
): Promise<void> {
  const { host } = new URL(target.url);
  const cookie = chance.pick(target.cookies);
  const head = `GET /sync/${room}?protocol=${PROTOCOL} HTTP/1.1\r\nHost: ${host}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\nSec-WebSocket-Version: 13\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n${cookie ? `Cookie: ${cookie}\r\n` : ''}\r\n`;
  const length = chance.under(120);
  const masked = (first: number, size: readonly number[]) =>
    Buffer.from([first, ...size, ...chance.bytes(4 + length)]);
  const tails: readonly (() => Buffer)[] = [
    () => Buffer.from(chance.bytes(chance.under(400))),
    () => Buffer.from([0x82, length, ...chance.bytes(length)]), // not masked
    () => masked(0x80 | chance.under(128), [0x80 | length]), // any opcode, reserved bits
    () => masked(0x82, [0xff, 0, 0, 0, 0, 0xff, 0xff, 0xff, 0xff]), // four gigabytes, it says
    () => masked(0x82, [0xff, ...chance.bytes(8)]),
    () => masked(0x89, [0xfe, 0x10, 0]), // a ping longer than a ping may be
    () => masked(0x88, [0x81]), // half a close code
    () => Buffer.concat(Array.from({ length: 20_000 }, () => Buffer.from([0x02, 0x81, 0, 0, 0, 0, 1]))), // fragments without end
    () => Buffer.concat(Array.from({ length: 2_000 }, () => Buffer.from([0x89, 0x80, 0, 0, 0, 0]))), // pings
  ];
  const bytes = Buffer.concat([Buffer.from(head), chance.pick(tails)()]);
  const said = await exchange(target, bytes, { answered: true, limitMs: 200 });
  tally.requests += 1;
  if (!said.startsWith('HTTP/1.1 101 ') && !said.startsWith('HTTP/1.1 429 '))
    tally.faults.push(`an upgrade was answered with ${JSON.stringify(said.slice(0, 80))}`);
}
