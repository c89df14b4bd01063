/**
 * Reads SQLite's log, `fibula.db-wal`, as SQLite does after a kill, and looks behind the place where it would stop.
 * SQLite takes the frames up to the first that does not fit its checksum and drops all that follow, silently: right
 * for a commit that a loss of power cut short, and wrong for a log that was damaged.
 *
 * That commits are dropped shows in two ways. A commit frame with other frames of the same log behind it had been
 * synced before these were written. And SQLite's index beside it, `fibula.db-shm`, counts the frames of the last
 * commit; it is counted up after the sync, so it may stand behind the log, never before it.
 */
import { closeSync, existsSync, fstatSync, openSync, readFileSync, readSync } from 'node:fs';

const HEADER = 32;
const FRAME_HEADER = 24;
/** The last bit tells the byte order of the checksums: 1 for the highest first. */
const MAGIC = 0x377f0682;
/** Where SQLite's index has its parts, in the machine's own byte order. */
const INDEX = { bytes: 48, version: 0, last: 16, salt: 32 } as const;
const INDEX_VERSION = 3_007_000;

type Sum = readonly [number, number];

/** Null where no commit was lost; else what is wrong, as the end of a sentence. Throws the system's error. */
export function lostInLog(path: string): string | null {
  const log = `${path}-wal`;
  if (!existsSync(log)) return null;
  const index = indexOf(`${path}-shm`);
  const handle = openSync(log, 'r');
  try {
    const { size } = fstatSync(handle);
    const header = Buffer.alloc(HEADER);
    if (readSync(handle, header, 0, HEADER, 0) < HEADER)
      return index && index.last > 0 ? 'it was cut short' : null;
    if (!isHeader(header)) return size > HEADER ? 'its beginning is not what was written' : null;
    const log = walk(handle, header, size);
    if (log.isCommittedBehind) return `frame ${log.whole + 1} is not what was written`;
    const isOfThisLog = index !== null && index.salt.equals(header.subarray(16, 24));
    if (isOfThisLog && index.last > log.committed)
      return `it should have ${index.last} frames, and ${log.committed} can be read`;
    return null;
  } finally {
    closeSync(handle);
  }
}

function isHeader(header: Buffer): boolean {
  if ((header.readUInt32BE(0) & ~1) >>> 0 !== MAGIC) return false;
  const [first, second] = add([0, 0], header.subarray(0, HEADER - 8), isBigEndian(header));
  return header.readUInt32BE(24) === first && header.readUInt32BE(28) === second;
}

const isBigEndian = (header: Buffer): boolean => (header.readUInt32BE(0) & 1) === 1;

interface Walked {
  /** Frames that fit their checksums, from the beginning. */
  readonly whole: number;
  /** Of these, up to the last that ends a commit. */
  readonly committed: number;
  /** Behind them is a commit that had been finished. */
  readonly isCommittedBehind: boolean;
}

function walk(handle: number, header: Buffer, size: number): Walked {
  const pageSize = header.readUInt32BE(8);
  const salt = header.subarray(16, 24);
  const frame = Buffer.alloc(FRAME_HEADER + pageSize);
  const frames = Math.floor((size - HEADER) / frame.length);
  let sum: Sum = [header.readUInt32BE(24), header.readUInt32BE(28)];
  let [whole, committed, commitsBehind] = [0, 0, 0];
  for (let i = 0; i < frames; i++) {
    readSync(handle, frame, 0, frame.length, HEADER + i * frame.length);
    const isOfThisLog = frame.subarray(8, 16).equals(salt);
    if (whole < i) {
      if (!isOfThisLog) continue;
      if (commitsBehind > 0) return { whole, committed, isCommittedBehind: true };
      if (endsCommit(frame)) commitsBehind++;
      continue;
    }
    sum = add(sum, frame.subarray(0, 8), isBigEndian(header));
    sum = add(sum, frame.subarray(FRAME_HEADER), isBigEndian(header));
    const fits = frame.readUInt32BE(16) === sum[0] && frame.readUInt32BE(20) === sum[1];
    if (fits && isOfThisLog) {
      whole = i + 1;
      if (endsCommit(frame)) committed = whole;
    } else if (isOfThisLog && endsCommit(frame)) commitsBehind++;
  }
  return { whole, committed, isCommittedBehind: false };
}

/** The frame says how many pages the database has after it. */
const endsCommit = (frame: Buffer): boolean => frame.readUInt32BE(4) !== 0;

/** SQLite's own checksum, a Fibonacci sum over pairs of 32-bit words. */
function add([first, second]: Sum, bytes: Buffer, bigEndian: boolean): Sum {
  for (let at = 0; at < bytes.length; at += 8) {
    first = (first + (bigEndian ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at)) + second) >>> 0;
    second = (second + (bigEndian ? bytes.readUInt32BE(at + 4) : bytes.readUInt32LE(at + 4)) + first) >>> 0;
  }
  return [first, second];
}

interface Index {
  /** Frames of the log up to the last commit. */
  readonly last: number;
  readonly salt: Buffer;
}

/** Null where there is none that can be believed: it has two copies, and they must be alike. */
function indexOf(path: string): Index | null {
  if (!existsSync(path)) return null;
  const bytes = readFileSync(path);
  if (bytes.length < 2 * INDEX.bytes) return null;
  const copy = bytes.subarray(0, INDEX.bytes);
  if (!copy.equals(bytes.subarray(INDEX.bytes, 2 * INDEX.bytes))) return null;
  const read = (at: number) =>
    new Uint8Array(new Uint16Array([1]).buffer)[0] === 1 ? copy.readUInt32LE(at) : copy.readUInt32BE(at);
  if (read(INDEX.version) !== INDEX_VERSION) return null;
  return { last: read(INDEX.last), salt: copy.subarray(INDEX.salt, INDEX.salt + 8) };
}
