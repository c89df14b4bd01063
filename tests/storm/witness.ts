/** Hears what the server says to the stations, frame by frame: what they were shown, and what was acknowledged. */
import * as decoding from 'lib0/decoding';
import * as Y from 'yjs';
import { MESSAGE } from '../../core/index.ts';

export interface Heard {
  /** Ids of facts that came to any station. */
  readonly shown: Set<string>;
  /** Yjs client id → how many of its entries the server has called durable. */
  readonly durable: Map<number, number>;
}

export class Witness {
  readonly #sessions = new Map<string, Heard>();

  /** By session id; boards are not listened to. */
  get sessions(): ReadonlyMap<string, Heard> {
    return this.#sessions;
  }

  /** One frame that came in a room. Throws on one that cannot be read. */
  hear(room: string, frame: Uint8Array): void {
    const [, session] = /^session\/([0-9a-f]{32})\//.exec(room) ?? [];
    if (session === undefined) return;
    const heard = this.#of(session);
    const decoder = decoding.createDecoder(frame);
    switch (decoding.readVarUint(decoder)) {
      case MESSAGE.sync: {
        const isQuestion = decoding.readVarUint(decoder) === 0;
        if (!isQuestion) for (const id of idsIn(decoding.readVarUint8Array(decoder))) heard.shown.add(id);
        return;
      }
      case MESSAGE.durable:
        for (const [client, clock] of Y.decodeStateVector(decoding.readVarUint8Array(decoder)))
          heard.durable.set(client, Math.max(clock, heard.durable.get(client) ?? 0));
        return;
      case MESSAGE.alreadySaved:
        for (const id of JSON.parse(decoding.readVarString(decoder)) as string[]) heard.shown.add(id);
        return;
      default:
        return;
    }
  }

  /** A restore began every session anew: what was called durable of the copies before says nothing of the new ones. */
  beginAnew(): void {
    for (const { durable } of this.#sessions.values()) durable.clear();
  }

  #of(session: string): Heard {
    const known = this.#sessions.get(session);
    if (known) return known;
    const heard: Heard = { shown: new Set(), durable: new Map() };
    this.#sessions.set(session, heard);
    return heard;
  }
}

/** Ids of the facts that an update carries. */
const idsIn = (update: Uint8Array): string[] =>
  Y.decodeUpdate(update).structs.flatMap((struct) =>
    struct instanceof Y.Item && struct.content instanceof Y.ContentAny
      ? (struct.content.arr as { id: string }[]).map(({ id }) => id)
      : [],
  );
