/** What no file of the project says: work left lying, and where it lay on somebody's machine. */
import type { SourceFile } from './files.ts';

// Put together here, so that this file does not hold what it looks for.
const MARKERS = new RegExp(`\\b(${['TO' + 'DO', 'FIX' + 'ME', 'HA' + 'CK', 'X'.repeat(3)].join('|')})\\b`);
const FOLDERS = ['home', 'root', 'tmp', 'work', 'Users', 'mnt'].join('|');
const MACHINE_PATH = new RegExp(
  `(?:^|[\\s'"\`(=<])(?:file://)?/(?:${FOLDERS})/[\\w.]|(?:^|[\\s'"\`(=<])[A-Z]:\\\\Users`,
);

/** One line for each place. */
export const unwelcomeWords = ({ path, text }: SourceFile): string[] =>
  text.split('\n').flatMap((line, i) => {
    const marker = MARKERS.exec(line)?.[1];
    return [
      ...(marker ? [`${path}:${i + 1}: ${marker}`] : []),
      ...(MACHINE_PATH.test(line) ? [`${path}:${i + 1}: a path of one machine`] : []),
    ];
  });

const TOP_FOLDERS = ['server', 'stations', 'core', 'tests', 'demo', 'docs', '.ci'];
const TOP_FILES = ['README.md', 'DEVELOPERS.md', 'package.json', 'package-lock.json', 'tsconfig.json'];

/** Configuration of a tool: `.name…rc…`, `.nameignore`, `.gitattributes`, `.editorconfig`, `.npmrc`, `name.config.js`. */
const CONFIGURATION =
  /^(\.[\w-]*rc(\.json)?|\.\w+ignore|\.gitattributes|\.editorconfig|\.nvmrc|[\w-]+\.config\.(js|ts|mjs))$/;

/** Names at the top that have no place there. */
export function strangersAtTop(paths: readonly string[]): string[] {
  const folders = new Set(paths.filter((p) => p.includes('/')).map((p) => p.split('/')[0]!));
  const files = paths.filter((p) => !p.includes('/'));
  return [
    ...[...folders].filter((name) => !TOP_FOLDERS.includes(name)),
    ...files.filter((name) => !TOP_FILES.includes(name) && !CONFIGURATION.test(name)),
  ];
}
