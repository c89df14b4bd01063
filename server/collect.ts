/**
 * Gives memory back. V8 collects while a program makes new things: a server that has put down a busy day's sessions, and
 * rests, would keep their memory until the next day's begin.
 */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
/** Holds up everybody for some 50 ms: for a moment in which nobody waits. Does nothing where the engine has no such door. */
export const collect: () => void =
  (runInNewContext('globalThis.gc') as (() => void) | undefined) ?? (() => undefined);
