/** What runs before any package is installed, and so may load nothing but Node's own modules. */
import { posix } from 'node:path';
import type { SourceFile } from './files.ts';
import { importsOf } from './imports.ts';

/** One line for each package that `entries`, or a file they load, needs at load. */
export function needsPackages(entries: readonly string[], files: readonly SourceFile[]): string[] {
  const byPath = new Map(files.map((file) => [file.path, file]));
  const found: string[] = [];
  const seen = new Set<string>();
  const visit = (path: string): void => {
    const file = byPath.get(path);
    if (!file || seen.has(path)) return;
    seen.add(path);
    for (const { specifier, line, atLoad } of importsOf(file)) {
      if (!atLoad || specifier === null || specifier.startsWith('node:')) continue;
      if (specifier.startsWith('.')) visit(posix.normalize(posix.join(posix.dirname(path), specifier)));
      else found.push(`${path}:${line}: loads ${specifier} before it is installed`);
    }
  };
  entries.forEach(visit);
  return found;
}
