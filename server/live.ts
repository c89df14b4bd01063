/**
 * A session's document in memory. It is read from the disk when it is asked for, and may be let go for as long as the
 * disk holds all of it, so that many open sessions do not cost the memory of many documents.
 */
import * as Y from 'yjs';
import { stationOf } from '../core/index.ts';
import type { Fact } from '../core/index.ts';
import { closely, clocksOf, fill, isWhole } from './document.ts';
import type { GateView, Verdict } from './gate-rule.ts';

interface Held {
  readonly doc: Y.Doc;
  readonly facts: Map<string, Fact>;
  /** What the document itself says of each change. */
  readonly emitted: Uint8Array[];
}

export interface LiveOutside {
  /** The rows on disk, oldest first. Throws when they cannot be read. */
  rows(): readonly Uint8Array[];
  /** The document has come into memory again. */
  woke(): void;
}

export class LiveDocument {
  /** What the gate looks at. Throws, as all that needs the document, when the disk cannot be read. */
  readonly view: GateView;
  readonly #session: string;
  readonly #outside: LiveOutside;
  #held: Held | null = null;
  #rows = 0;
  /** Client id → number of its entries on disk. */
  readonly #durable = new Map<number, number>();

  /** Reads it. Throws when its rows do not make a whole document. @param erased whether texts of it were erased */
  constructor(session: string, erased: boolean, outside: LiveOutside) {
    this.#session = session;
    this.#outside = outside;
    const factsSize = () => this.#awake.facts.size;
    this.view = {
      clockOf: (client) => Y.getState(this.#awake.doc.store, client),
      clientsOf: (station) =>
        [...this.#awake.doc.store.clients.keys()].filter((id) => stationOf(id) === station).length,
      facts: {
        erased,
        get size() {
          return factsSize();
        },
        get: (id) => this.#awake.facts.get(id),
      },
    };
    this.#held = this.#read();
  }

  /** Rows on disk. */
  get rows(): number {
    return this.#rows;
  }

  /** Client id → number of its entries on disk. */
  get durable(): ReadonlyMap<number, number> {
    return this.#durable;
  }

  /** What the disk holds, as Yjs asks and answers with it. */
  get durableVector(): Uint8Array {
    return Y.encodeStateVector(this.#durable as Map<number, number>);
  }

  /** In the list's order. */
  facts(): Fact[] {
    return this.#awake.doc.getArray<Fact>('facts').toArray();
  }

  /** All that it holds, by the document itself. */
  whole(): Uint8Array {
    return Y.encodeStateAsUpdate(this.#awake.doc);
  }

  /** All that it holds beyond a state vector. A first copy is made of the rows and does not wake it. */
  since(stateVector: Uint8Array): Uint8Array {
    if (!this.#held && Y.decodeStateVector(stateVector).size === 0)
      return Y.mergeUpdates([...this.#outside.rows()]);
    return Y.encodeStateAsUpdate(this.#awake.doc, stateVector);
  }

  /**
   * Applies an update that the gate took.
   * @returns the document's own bytes for it; null when it did not do what the gate foretold, after which it is not to
   *   be believed
   */
  take(update: Uint8Array, { facts, clocks }: Verdict & { do: 'take' }): Uint8Array | null {
    const { doc, facts: known, emitted } = this.#awake;
    emitted.length = 0;
    const before = known.size;
    Y.applyUpdate(doc, update);
    const [bytes, ...more] = emitted;
    const asForetold =
      isWhole(doc) &&
      [...clocks].every(([client, clock]) => Y.getState(doc.store, client) === clock) &&
      facts.every(({ id }) => known.has(id)) &&
      known.size === before + facts.length &&
      doc.getArray('facts').length === known.size;
    return bytes && more.length === 0 && asForetold ? bytes : null;
  }

  /** One more row holds what was taken of these clients. */
  stored(clocks: ReadonlyMap<number, number>): void {
    this.#rows += 1;
    for (const [client, clock] of clocks) this.#durable.set(client, clock);
  }

  /** The rows on disk are one now. */
  joined(): void {
    this.#rows = 1;
  }

  /** Lets it go, with what is not on disk. */
  rest(): void {
    this.#held?.doc.destroy();
    this.#held = null;
  }

  get #awake(): Held {
    if (this.#held) return this.#held;
    this.#held = this.#read();
    this.#outside.woke();
    return this.#held;
  }

  #read(): Held {
    const rows = this.#outside.rows();
    const held: Held = { doc: new Y.Doc(), facts: new Map(), emitted: [] };
    const { doc, facts, emitted } = held;
    // The document's own values: those that the gate read are let go, or each would be held twice.
    doc.getArray<Fact>('facts').observe(({ changes }) => {
      for (const { content } of changes.added)
        if (content instanceof Y.ContentAny) for (const fact of closely(content)) facts.set(fact.id, fact);
    });
    fill(doc, rows, this.#session);
    doc.on('update', (bytes: Uint8Array) => emitted.push(bytes));
    this.#rows = rows.length;
    this.#durable.clear();
    for (const [client, clock] of clocksOf(doc)) this.#durable.set(client, clock);
    return held;
  }
}
