/** When a disk is tried again, and what an error says of it. */
import pino from 'pino';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ALL_WELL, readStatus } from '../../core/index.ts';
import { Health } from '../../server/health.ts';
import { DamagedFile, troubleOf } from '../../server/trouble.ts';

const error = (code: string) => Object.assign(new Error(code), { code });
const FULL = error('SQLITE_FULL');
const HOUR_MS = 3_600_000;

let free: number;
let takes: boolean;
let probes: number[];
let health: Health;

beforeEach(() => {
  vi.useFakeTimers();
  free = 5e9;
  takes = false;
  probes = [];
  health = new Health({
    log: pino({ level: 'silent' }),
    probe: (bytes) => {
      probes.push(bytes);
      if (!takes) throw FULL;
    },
    freeBytes: () => free,
    lowSpaceBytes: 1e9,
  });
});
afterEach(() => {
  health.stop();
  vi.useRealTimers();
});

describe('trying again', () => {
  it('happens at growing distances, for as long as it takes', () => {
    health.failed(FULL);
    vi.advanceTimersByTime(HOUR_MS);
    expect(probes.length).toBeGreaterThan(HOUR_MS / 10_000 - 5);
    expect(probes.length).toBeLessThan(HOUR_MS / 10_000 + 10);
    takes = true;
    vi.advanceTimersByTime(10_000);
    expect(health.readOnly).toBeNull();
    const { length } = probes;
    vi.advanceTimersByTime(HOUR_MS);
    expect(probes).toHaveLength(length);
  });

  it('does not come faster when tries go through and commits fail: only a commit shows that all is well', () => {
    takes = true;
    let told = 0;
    health.onChange(() => (told += 1));
    health.failed(FULL);
    for (let second = 0; second < 3_600; second++) {
      vi.advanceTimersByTime(1_000);
      if (health.readOnly === null) health.failed(FULL);
    }
    expect(told).toBeLessThan(2 * (HOUR_MS / 10_000 + 10));
    vi.advanceTimersByTime(10_000);
    health.worked();
    probes = [];
    health.failed(FULL);
    vi.advanceTimersByTime(1_000);
    expect(probes).toHaveLength(1);
  });

  it('writes as much as the commit that failed, within bounds', () => {
    health.failed(FULL, 500_000);
    vi.advanceTimersByTime(1_000);
    health.failed(FULL, 50_000_000);
    vi.advanceTimersByTime(2_000);
    expect(probes).toEqual([1_000_000, 4_194_304]);
  });

  it('never happens to a damaged database, whatever is heard later', () => {
    health.failed(error('SQLITE_CORRUPT'));
    health.failed(FULL);
    takes = true;
    vi.advanceTimersByTime(HOUR_MS);
    expect([health.readOnly, probes]).toEqual(['damaged', []]);
  });

  it('ends with the server', () => {
    health.failed(FULL);
    health.stop();
    vi.advanceTimersByTime(HOUR_MS);
    expect(probes).toEqual([]);
  });
});

describe('an error', () => {
  it.each([
    ['SQLITE_FULL', 'full'],
    ['ENOSPC', 'full'],
    ['SQLITE_READONLY_DIRECTORY', 'forbidden'],
    ['EROFS', 'forbidden'],
    ['SQLITE_BUSY', 'locked'],
    ['SQLITE_IOERR_FSYNC', 'failing'],
    ['SQLITE_IOERR_CORRUPTFS', 'damaged'],
    ['SQLITE_CORRUPT_INDEX', 'damaged'],
    ['SQLITE_NOTADB', 'damaged'],
    ['SQLITE_CONSTRAINT_PRIMARYKEY', null],
    ['ENOENT', null],
  ])('%s is %s', (code, trouble) => {
    expect(troubleOf(error(code))).toBe(trouble);
    expect(health.failed(error(code))).toBe(trouble);
    expect(health.readOnly).toBe(trouble);
  });

  it('of a bug is thrown on, and of the disk is answered otherwise', () => {
    const bug = () => {
      throw new TypeError('a bug');
    };
    expect(() => health.attempt(bug, () => 0)).toThrow('a bug');
    expect(health.readOnly).toBeNull();
    const full = () => {
      throw FULL;
    };
    expect(health.attempt<number>(full, () => 7)).toBe(7);
    expect(
      health.attempt(
        () => 8,
        () => 7,
      ),
    ).toBe(8);
    expect(troubleOf(new DamagedFile('x'))).toBe('damaged');
  });

  it('of input or output on a disk without space is a full disk in other words', () => {
    free = 100_000;
    expect(health.failed(error('SQLITE_IOERR_SHMSIZE'))).toBe('full');
  });
});

it('little space is told once it is little, again as it shrinks, and taken back with some air', () => {
  const told: unknown[] = [];
  health.onChange(({ lowSpace }) => told.push(lowSpace?.freeMb ?? null));
  for (const bytes of [1.2e9, 0.999e9, 0.9951e9, 0.5e9, 1.05e9, 1.2e9]) {
    free = bytes;
    health.checkSpace();
  }
  expect(told).toEqual([1000, 500, 1100, null]);
});

describe('a status', () => {
  it.each([
    ['{}', ALL_WELL],
    ['no json', ALL_WELL],
    ['null', ALL_WELL],
    ['{"readOnly":"full","more":1}', { ...ALL_WELL, readOnly: 'full' }],
    ['{"readOnly":"on-fire"}', { ...ALL_WELL, readOnly: 'failing' }],
    ['{"readOnly":7,"lowSpace":{"freeMb":12,"x":0}}', { ...ALL_WELL, lowSpace: { freeMb: 12 } }],
    ['{"lowSpace":{"freeMb":"12"}}', ALL_WELL],
    [
      '{"backup":{"ok":false,"atMs":7,"reason":"late","x":0}}',
      { ...ALL_WELL, backup: { ok: false, atMs: 7, bytes: null, reason: 'late' } },
    ],
    ['{"backup":{"ok":"no"}}', ALL_WELL],
  ])('%s is read as far as it is understood', (json, status) => {
    expect(readStatus(json)).toEqual(status);
  });
});
