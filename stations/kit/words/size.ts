/** Sizes of files, as people say them. */
import { shown } from '../numbers.ts';

/** `12.4 MB`, `80 kB`. */
export const size = (bytes: number): string =>
  bytes >= 1e6 ? `${shown(bytes / 1e6)} MB` : `${shown(bytes / 1e3, 0)} kB`;
