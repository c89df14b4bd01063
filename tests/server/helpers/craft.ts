/** Yjs updates written byte by byte, honest or not. */
import * as encoding from 'lib0/encoding';

export interface Id {
  readonly client: number;
  readonly clock: number;
}

export type Struct =
  | {
      readonly is: 'item';
      readonly origin?: Id;
      readonly rightOrigin?: Id;
      /** Name of the root type, or an entry's id; only written without both origins. */
      readonly parent?: string | Id;
      readonly parentSub?: string;
      readonly content: Content;
    }
  | { readonly is: 'gc' | 'skip'; readonly length: number };

export interface Content {
  readonly ref: number;
  write(encoder: encoding.Encoder): void;
}

export interface Section {
  readonly client: number;
  readonly clock: number;
  readonly structs: readonly Struct[];
  /** A number of structs other than the true one. */
  readonly announced?: number;
}

export interface Update {
  readonly sections: readonly Section[];
  readonly deletes?: readonly (Id & { readonly length: number })[];
  /** A number of sections other than the true one. */
  readonly announced?: number;
}

/** Plain values, as `Y.Array.push` writes them. */
export const any = (...values: readonly unknown[]): Content => ({
  ref: 8,
  write: (encoder) => {
    encoding.writeVarUint(encoder, values.length);
    for (const value of values) encoding.writeAny(encoder, value as never);
  },
});

/** The older content of Yjs for JSON. */
export const json = (...values: readonly unknown[]): Content => ({
  ref: 2,
  write: (encoder) => {
    encoding.writeVarUint(encoder, values.length);
    for (const value of values) encoding.writeVarString(encoder, JSON.stringify(value));
  },
});

export const text = (value: string): Content => ({
  ref: 4,
  write: (encoder) => encoding.writeVarString(encoder, value),
});

/** One value: a list of a list of a list, `depth` times. */
export const listsInLists = (depth: number): Content => ({
  ref: 8,
  write: (encoder) => {
    encoding.writeVarUint(encoder, 1);
    for (let level = 0; level < depth; level++) {
      encoding.writeUint8(encoder, 117);
      encoding.writeVarUint(encoder, 1);
    }
    encoding.writeUint8(encoder, 126);
  },
});

/** A `Y.Map` inside the list. */
export const map: Content = { ref: 7, write: (encoder) => encoding.writeVarUint(encoder, 1) };

export const item = (
  content: Content,
  rest: Omit<Struct & { is: 'item' }, 'is' | 'content'> = {},
): Struct => ({
  is: 'item',
  content,
  ...rest,
});

function writeId(encoder: encoding.Encoder, { client, clock }: Id): void {
  encoding.writeVarUint(encoder, client);
  encoding.writeVarUint(encoder, clock);
}

function writeStruct(encoder: encoding.Encoder, struct: Struct): void {
  if (struct.is !== 'item') {
    encoding.writeUint8(encoder, struct.is === 'gc' ? 0 : 10);
    encoding.writeVarUint(encoder, struct.length);
    return;
  }
  const { origin, rightOrigin, parent = 'facts', parentSub, content } = struct;
  const flags = (origin ? 128 : 0) | (rightOrigin ? 64 : 0) | (parentSub === undefined ? 0 : 32);
  encoding.writeUint8(encoder, flags | content.ref);
  if (origin) writeId(encoder, origin);
  if (rightOrigin) writeId(encoder, rightOrigin);
  if (!origin && !rightOrigin) {
    encoding.writeVarUint(encoder, typeof parent === 'string' ? 1 : 0);
    if (typeof parent === 'string') encoding.writeVarString(encoder, parent);
    else writeId(encoder, parent);
    if (parentSub !== undefined) encoding.writeVarString(encoder, parentSub);
  }
  content.write(encoder);
}

export function craft({ sections, deletes = [], announced }: Update): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, announced ?? sections.length);
  for (const { client, clock, structs, announced: count } of sections) {
    encoding.writeVarUint(encoder, count ?? structs.length);
    encoding.writeVarUint(encoder, client);
    encoding.writeVarUint(encoder, clock);
    for (const struct of structs) writeStruct(encoder, struct);
  }
  encoding.writeVarUint(encoder, deletes.length);
  for (const { client, clock, length } of deletes) {
    encoding.writeVarUint(encoder, client);
    encoding.writeVarUint(encoder, 1);
    encoding.writeVarUint(encoder, clock);
    encoding.writeVarUint(encoder, length);
  }
  return encoding.toUint8Array(encoder);
}
