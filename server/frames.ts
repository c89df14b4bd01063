/** Frames of the sync connection: bytes to a value, and values to bytes. `docs/protocol.md` lists them. */
import * as decoding from 'lib0/decoding';
import * as encoding from 'lib0/encoding';
import * as Y from 'yjs';
import { MESSAGE } from '../core/index.ts';
import type { Refusal, ServerStatus } from '../core/index.ts';
import { BOUND } from './limits.ts';

const SYNC = { step1: 0, step2: 1, update: 2 } as const;

/** What a station may say. `unknown` is read past: a newer station may know more messages than we do. */
export type Frame =
  | { readonly type: 'step1'; readonly stateVector: Uint8Array }
  | { readonly type: 'update'; readonly update: Uint8Array }
  | { readonly type: 'presence'; readonly entries: readonly PresenceEntry[] }
  | { readonly type: 'presence-wanted' }
  | { readonly type: 'unknown'; readonly number: number };

/** One client's entry of an awareness update; `state` null means gone. */
export interface PresenceEntry {
  readonly client: number;
  readonly clock: number;
  readonly state: unknown;
}

/** A refusal and the Yjs client id it blocks in this document. */
export interface Refused extends Refusal {
  readonly client: number;
}

/** Null when the bytes are no frame: cut short, or with something behind the end. */
export function readFrame(bytes: Uint8Array): Frame | null {
  try {
    const decoder = decoding.createDecoder(bytes);
    const frame = readBody(decoder);
    return frame === null || frame.type === 'unknown' || !decoding.hasContent(decoder) ? frame : null;
  } catch {
    return null;
  }
}

function readBody(decoder: decoding.Decoder): Frame | null {
  const number = decoding.readVarUint(decoder);
  switch (number) {
    case MESSAGE.sync:
      return readSync(decoder);
    case MESSAGE.awareness:
      return { type: 'presence', entries: readPresence(decoding.readVarUint8Array(decoder)) };
    case MESSAGE.queryAwareness:
      return { type: 'presence-wanted' };
    default:
      return { type: 'unknown', number };
  }
}

function readSync(decoder: decoding.Decoder): Frame | null {
  const step = decoding.readVarUint(decoder);
  const body = decoding.readVarUint8Array(decoder);
  if (step === SYNC.step1) {
    Y.decodeStateVector(body); // throws on a malformed one, before any document sees it
    return { type: 'step1', stateVector: body };
  }
  return step === SYNC.step2 || step === SYNC.update ? { type: 'update', update: body } : null;
}

function readPresence(bytes: Uint8Array): PresenceEntry[] {
  const decoder = decoding.createDecoder(bytes);
  const entries: PresenceEntry[] = [];
  for (let left = decoding.readVarUint(decoder); left > 0; left--) {
    const client = decoding.readVarUint(decoder);
    const clock = decoding.readVarUint(decoder);
    const state = decoding.readVarString(decoder);
    if (state.length > BOUND.presenceBytes) throw new RangeError('presence is too long');
    entries.push({ client, clock, state: JSON.parse(state) as unknown });
  }
  return entries;
}

const frame = (write: (encoder: encoding.Encoder) => void): Uint8Array => {
  const encoder = encoding.createEncoder();
  write(encoder);
  return encoding.toUint8Array(encoder);
};

const sync = (step: number, body: Uint8Array) =>
  frame((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.sync);
    encoding.writeVarUint(encoder, step);
    encoding.writeVarUint8Array(encoder, body);
  });

export const step1Frame = (stateVector: Uint8Array) => sync(SYNC.step1, stateVector);
export const step2Frame = (update: Uint8Array) => sync(SYNC.step2, update);
export const updateFrame = (update: Uint8Array) => sync(SYNC.update, update);

/** `clocks`: client id → number of entries of it on disk. Empty: a heartbeat. */
export const durableFrame = (clocks: ReadonlyMap<number, number>) =>
  frame((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.durable);
    const body = frame((inner) => {
      encoding.writeVarUint(inner, clocks.size);
      for (const [client, clock] of clocks) {
        encoding.writeVarUint(inner, client);
        encoding.writeVarUint(inner, clock);
      }
    });
    encoding.writeVarUint8Array(encoder, body);
  });

const json = (number: number, value: unknown) =>
  frame((encoder) => {
    encoding.writeVarUint(encoder, number);
    encoding.writeVarString(encoder, JSON.stringify(value));
  });

export const refusedFrame = (refused: Refused) => json(MESSAGE.refused, refused);
export const statusFrame = (status: ServerStatus) => json(MESSAGE.status, status);
export const alreadySavedFrame = (ids: readonly string[]) => json(MESSAGE.alreadySaved, ids);

export const presenceFrame = (entries: readonly PresenceEntry[]) =>
  frame((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.awareness);
    const body = frame((inner) => {
      encoding.writeVarUint(inner, entries.length);
      for (const { client, clock, state } of entries) {
        encoding.writeVarUint(inner, client);
        encoding.writeVarUint(inner, clock);
        encoding.writeVarString(inner, JSON.stringify(state));
      }
    });
    encoding.writeVarUint8Array(encoder, body);
  });
