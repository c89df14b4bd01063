/** The project's own files, as the house rules see them. */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../run.mjs';

export interface SourceFile {
  /** From the top folder, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

/** What `.gitignore` keeps out; used where there is no git to ask. */
const NOT_OURS = new Set(['.git', 'node_modules', 'build', 'data']);

function walk(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    if (NOT_OURS.has(entry.name) || entry.name.endsWith('.log') || entry.name === '.DS_Store') return [];
    const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
    return entry.isDirectory() ? walk(path) : [path];
  });
}

/** Every file that is tracked or would be, committed or not; in a copy without git, every file not ignored. */
export function ownPaths(): string[] {
  const git = spawnSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
    cwd: ROOT,
    encoding: 'utf8',
  });
  const paths = git.status === 0 ? git.stdout.split('\0').filter(Boolean) : walk('');
  return [...new Set(paths)].filter((path) => existsSync(join(ROOT, path))).sort();
}

/** The text of each file; a file with a NUL byte is no text and is left out. */
export const readAll = (paths: readonly string[]): SourceFile[] =>
  paths
    .map((path) => ({ path, text: readFileSync(join(ROOT, path), 'utf8') }))
    .filter(({ text }) => !text.includes('\0'));

/** Files that can import others. */
export const isCode = (path: string): boolean => /\.(ts|mts|js|mjs|svelte)$/.test(path);
