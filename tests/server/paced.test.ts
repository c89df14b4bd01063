/** Work that can wait, against a clock that the test turns. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Paced } from '../../server/paced.ts';
import type { Asked } from '../../server/paced.ts';

const WORK_MS = 20;
let done: string[];
let paced: Paced;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'Date'] });
  done = [];
  paced = made(({ firstMs }) => firstMs);
});
afterEach(() => vi.useRealTimers());

const made = (dueMs: (asked: Asked) => number) =>
  new Paced({
    share: 30,
    atOnceMs: 100,
    dueMs,
    now: () => Date.now(),
    work: (name) => {
      done.push(name);
      vi.setSystemTime(Date.now() + WORK_MS);
    },
  });
const names = (count: number, letter: string) => Array.from({ length: count }, (_, i) => `${letter}${i}`);

it('does little at once, each once however often it was asked for', () => {
  for (const name of ['a', 'b', 'a']) paced.add(name);
  vi.advanceTimersByTime(10);
  expect(done).toEqual(['a', 'b']);
});

it('takes its part of the time and no more once much comes, and forgets none', () => {
  const all = names(200, 'x');
  for (const name of all) paced.add(name);
  vi.advanceTimersByTime(50);
  const atOnce = done.length;
  expect(atOnce * WORK_MS).toBeGreaterThanOrEqual(100);
  expect(atOnce * WORK_MS).toBeLessThan(100 + 3 * WORK_MS);
  const from = Date.now();
  vi.advanceTimersByTime(60_000);
  const share = ((done.length - atOnce) * WORK_MS) / (Date.now() - from);
  expect(share).toBeGreaterThan(0.8 / 30);
  expect(share).toBeLessThan(1.1 / 30);
  vi.advanceTimersByTime(300_000);
  expect(done).toEqual(all);
});

it('waits for calm, and not for ever', () => {
  paced = made(({ firstMs, lastMs }) => Math.min(lastMs + 3_000, firstMs + 10_000));
  paced.add('calm');
  vi.advanceTimersByTime(2_900);
  expect(done).toEqual([]);
  vi.advanceTimersByTime(200);
  expect(done).toEqual(['calm']);
  for (let ms = 0; ms < 10_100; ms += 100) {
    paced.add('busy');
    vi.advanceTimersByTime(100);
  }
  expect(done).toEqual(['calm', 'busy']);
});

it('does at once what was asked for when the server stops, and nothing more', () => {
  const all = names(60, 'x');
  for (const name of all) paced.add(name);
  paced.stop();
  expect(done).toEqual(all);
  paced.add('after');
  vi.advanceTimersByTime(60_000);
  expect(done).toEqual(all);
});
