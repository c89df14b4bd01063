/** What the server needs of the world beside files and sockets. `main.ts` gives the real ones. */
export interface Outside {
  /** Milliseconds since 1970, UTC. */
  now(): number;
  /** `count` unpredictable bytes. */
  randomBytes(count: number): Uint8Array;
  /** An unpredictable whole number from 0 up to, not including, `below`. */
  randomInt(below: number): number;
}
