/** Reading and joining bytes of a picture's file. */

export type PhotoType = 'image/jpeg' | 'image/png' | 'image/webp';

/** A picture's file with the picture in it and nothing else. */
export interface BarePhoto {
  readonly type: PhotoType;
  readonly bytes: Uint8Array;
  /** As the rows of the file lie: no note in the file turns them any more. */
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Thrown inside the readers where a file ends early or contradicts itself; `bare` makes a value of it. */
export class Broken extends Error {}

export function need(condition: boolean): asserts condition {
  if (!condition) throw new Broken();
}

/** The number in `length` bytes at `at`, the most significant first; throws `Broken` past the end. */
export function bigEndian(bytes: Uint8Array, at: number, length: number): number {
  need(at >= 0 && at + length <= bytes.length);
  let value = 0;
  for (let i = 0; i < length; i++) value = value * 256 + bytes[at + i]!;
  return value;
}

/** The same, the least significant first. */
export function littleEndian(bytes: Uint8Array, at: number, length: number): number {
  need(at >= 0 && at + length <= bytes.length);
  let value = 0;
  for (let i = length - 1; i >= 0; i--) value = value * 256 + bytes[at + i]!;
  return value;
}

/** Four bytes as letters: the name of a chunk. */
export function fourLetters(bytes: Uint8Array, at: number): string {
  need(at >= 0 && at + 4 <= bytes.length);
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
