/** How a station speaks with each server: which address, and what stands around the messages of y-protocols. */
import * as decoding from 'lib0/decoding';
import * as encoding from 'lib0/encoding';
import { CLIENT_SPAN, MESSAGE, PROTOCOL } from '../../../../core/index.ts';

export const SERVERS = ['ours', 'relay', 'durable', 'stock', 'hocuspocus'] as const;
export type ServerName = (typeof SERVERS)[number];

/** Who the load comes in as. Only ours asks: a cookie, and a number that stands in each Yjs client id. */
export interface Badge {
  readonly cookie: string;
  readonly device: string;
  readonly number: number;
  readonly generation: number;
}

export const STEP = { state: 0, answer: 1, update: 2 } as const;

export interface Said {
  readonly step: number;
  readonly body: Uint8Array;
}

export interface Speech {
  /** Answers what it holds to whoever asks; a relay holds nothing. */
  readonly answers: boolean;
  address(url: string, session: string): string;
  headers(url: string): Record<string, string>;
  /** What must be said before anything else. */
  greeting(session: string): Uint8Array | null;
  frame(session: string, step: number, body: Uint8Array): Uint8Array;
  /** Null for what is not about the document. */
  read(bytes: Uint8Array): Said | null;
  clientId(random: number): number;
}

const written = (write: (encoder: encoding.Encoder) => void): Uint8Array => {
  const encoder = encoding.createEncoder();
  write(encoder);
  return encoding.toUint8Array(encoder);
};

function readSync(decoder: decoding.Decoder): Said | null {
  const type = decoding.readVarUint(decoder);
  // 4: hocuspocus's answer to a question, the same within.
  if (type !== MESSAGE.sync && type !== 4) return null;
  return { step: decoding.readVarUint(decoder), body: decoding.readVarUint8Array(decoder) };
}

const plain = {
  answers: true,
  headers: () => ({}),
  greeting: () => null,
  frame: (_session: string, step: number, body: Uint8Array) =>
    written((encoder) => {
      encoding.writeVarUint(encoder, MESSAGE.sync);
      encoding.writeVarUint(encoder, step);
      encoding.writeVarUint8Array(encoder, body);
    }),
  read: (bytes: Uint8Array) => readSync(decoding.createDecoder(bytes)),
  clientId: (random: number) => random,
};

const socketUrl = (url: string) => url.replace(/^http/, 'ws');

const hocuspocus: Speech = {
  ...plain,
  address: socketUrl,
  greeting: (session) =>
    written((encoder) => {
      encoding.writeVarString(encoder, session);
      encoding.writeVarUint(encoder, MESSAGE.auth);
      encoding.writeVarUint(encoder, 0); // a token follows
      encoding.writeVarString(encoder, 'bench');
    }),
  frame: (session, step, body) =>
    written((encoder) => {
      encoding.writeVarString(encoder, session);
      encoding.writeUint8Array(encoder, plain.frame(session, step, body));
    }),
  read: (bytes) => {
    const decoder = decoding.createDecoder(bytes);
    decoding.readVarString(decoder);
    return readSync(decoder);
  },
};

export function speechOf(server: ServerName, badge: Badge | null): Speech {
  switch (server) {
    case 'ours':
      return {
        ...plain,
        address: (url, session) =>
          `${socketUrl(url)}/sync/session/${session}/${badge!.generation}?protocol=${PROTOCOL}`,
        headers: (url) => ({ cookie: badge!.cookie, origin: url }),
        clientId: (random) => badge!.number * CLIENT_SPAN + random,
      };
    case 'relay':
    case 'durable':
      return { ...plain, answers: false, address: (url, session) => `${socketUrl(url)}/${session}` };
    case 'stock':
      return { ...plain, address: (url, session) => `${socketUrl(url)}/${session}` };
    case 'hocuspocus':
      return hocuspocus;
    default:
      return server satisfies never;
  }
}
