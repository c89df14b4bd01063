/** Where a socket waits whose session cannot be read just now: it hears that the server lives, and nothing else. */
import { CLOSE } from '../core/index.ts';
import { durableFrame } from './frames.ts';
import type { Frame } from './frames.ts';
import type { Peer } from './peer.ts';
import type { Room } from './room.ts';

export class HeldRoom implements Room {
  readonly name = 'held';
  readonly #peers = new Set<Peer>();

  join(peer: Peer): void {
    this.#peers.add(peer);
    peer.send(durableFrame(new Map()));
  }

  leave(peer: Peer): void {
    this.#peers.delete(peer);
  }

  /** Not answered: an answer would say that the session is empty. */
  receive(_peer: Peer, _frame: Frame): void {}

  /** They come back, and find their session. */
  letGo(): void {
    for (const peer of this.#peers) peer.close(CLOSE.again, 'The server can read its disk again.');
  }
}
