/** What a station's first picture waits for: its document, and the scripts and styles that the document names. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';

export interface FirstPage {
  readonly files: number;
  readonly brotliBytes: number;
  readonly gzipBytes: number;
  readonly plainBytes: number;
}

/** Of a built page, e.g. `measuring/index.html` below `build`. What comes later, when it is asked for, does not count. */
export function firstPage(build: string, document: string): FirstPage {
  const html = readFileSync(join(build, document), 'utf8');
  const named = [...html.matchAll(/(?:src|href)="\/(assets\/[^"]+)"/g)].map(([, file]) => file!);
  const files = [document, ...new Set(named)];
  const bytes = (ending: string) =>
    files.reduce((sum, file) => sum + statSync(join(build, file + ending)).size, 0);
  return {
    files: files.length,
    brotliBytes: bytes('.br'),
    gzipBytes: bytes('.gz'),
    plainBytes: bytes(''),
  };
}
