/** Work that can wait, against a clock that the test turns. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Paced } from '../../server/paced.ts';

const WORK_MS = 20;
let done: string[];
let paced: Paced;
/** Milliseconds that were worked. */
let spent: number;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'Date', 'performance'] });
  done = [];
  spent = 0;
  paced = new Paced({
    share: 30,
    now: () => Date.now(),
    work: (name) => {
      done.push(name);
      vi.setSystemTime(Date.now() + WORK_MS);
      spent += WORK_MS;
    },
  });
  vi.spyOn(performance, 'now').mockImplementation(() => spent);
});
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});
const names = (count: number, letter: string) => Array.from({ length: count }, (_, i) => `${letter}${i}`);

it('does little at once, each once however often it came due', () => {
  for (const name of ['a', 'b', 'a']) paced.add(name);
  vi.advanceTimersByTime(10);
  expect(done).toEqual(['a', 'b']);
});

it('takes its part of the time and no more once much comes, and forgets none', () => {
  const all = names(200, 'x');
  for (const name of all) paced.add(name);
  vi.advanceTimersByTime(50);
  const atOnce = done.length;
  expect(atOnce * WORK_MS).toBeGreaterThanOrEqual(500);
  expect(atOnce * WORK_MS).toBeLessThan(500 + 3 * WORK_MS);
  const from = Date.now();
  vi.advanceTimersByTime(60_000);
  const share = ((done.length - atOnce) * WORK_MS) / (Date.now() - from);
  expect(share).toBeGreaterThan(0.8 / 30);
  expect(share).toBeLessThan(1.1 / 30);
  vi.advanceTimersByTime(300_000);
  expect(done).toEqual(all);
});

it('goes on after a clock was set back or far forward', () => {
  for (const name of names(40, 'x')) paced.add(name);
  vi.advanceTimersByTime(50);
  vi.setSystemTime(Date.now() - 3_600_000);
  const before = done.length;
  vi.advanceTimersByTime(60_000);
  expect(done.length).toBeGreaterThan(before);
  vi.setSystemTime(Date.now() + 3_600_000);
  paced.add('late');
  vi.advanceTimersByTime(60_000);
  expect(done).toContain('late');
});

it('does at once what is due when the server stops, and nothing more', () => {
  const all = names(60, 'x');
  for (const name of all) paced.add(name);
  paced.stop();
  expect(done).toEqual(all);
  paced.add('after');
  vi.advanceTimersByTime(60_000);
  expect(done).toEqual(all);
});
