/**
 * Gives memory back. V8 collects while a program makes new things: a server that has put down a busy day's sessions, and
 * rests, would keep their memory until the next day's begin.
 */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
/** Holds up everybody for some 50 ms: for a moment in which nobody waits. */
export const collect = runInNewContext('gc') as () => void;
