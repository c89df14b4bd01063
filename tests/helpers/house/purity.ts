/** What the core may not touch: clock, chance, the machine it runs on, the language of its user. */
import ts from 'typescript';
import type { SourceFile } from './files.ts';

// prettier-ignore
const GLOBALS = new Set([
  'process', 'Buffer', 'console', 'performance', 'crypto', 'fetch', 'globalThis', 'window', 'document',
  'navigator', 'localStorage', 'sessionStorage', 'indexedDB', 'WebSocket', 'XMLHttpRequest', 'Intl',
  'setTimeout', 'setInterval', 'setImmediate', 'queueMicrotask', 'requestAnimationFrame',
]);

const MEMBERS = new Set(['Math.random', 'Date.now']);

/** Methods whose answer depends on where the program runs. */
const LOCAL =
  /^(toLocale\w+|localeCompare|getTimezoneOffset|getHours|getMinutes|getDate|getDay|getMonth|getFullYear)$/;

/**
 * Whether nothing in this file declares what the name stands for. The file is looked at alone and without the
 * language's own library, so that a name which is found is the file's own.
 */
function foreign(
  path: string,
  text: string,
): { source: ts.SourceFile; is: (node: ts.Identifier) => boolean } {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const host: ts.CompilerHost = {
    ...ts.createCompilerHost({}),
    getSourceFile: (name) => (name === path ? source : undefined),
    fileExists: (name) => name === path,
    readFile: () => undefined,
    writeFile: () => undefined,
  };
  const options: ts.CompilerOptions = { noLib: true, noResolve: true, types: [], noEmit: true };
  const checker = ts.createProgram([path], options, host).getTypeChecker();
  const named = (node: ts.Identifier) =>
    ts.isShorthandPropertyAssignment(node.parent)
      ? checker.getShorthandAssignmentValueSymbol(node.parent)
      : checker.getSymbolAtLocation(node);
  return { source, is: (node) => !isMember(node) && !named(node)?.declarations?.length };
}

/** In `a.name` the name is a member of `a`, whatever `a` is. */
const isMember = (node: ts.Identifier): boolean =>
  ts.isPropertyAccessExpression(node.parent) && node.parent.name === node;

function fault(node: ts.Node, isForeign: (node: ts.Identifier) => boolean): string | null {
  if (ts.isIdentifier(node) && GLOBALS.has(node.text) && isForeign(node)) return node.text;
  if (ts.isPropertyAccessExpression(node)) {
    if (MEMBERS.has(node.getText())) return node.getText();
    if (LOCAL.test(node.name.text)) return node.name.text;
  }
  const callsDate = (ts.isNewExpression(node) && !node.arguments?.length) || ts.isCallExpression(node);
  if (callsDate && node.expression.getText() === 'Date') return 'Date without a time';
  return null;
}

/** One line for each use. */
export function impurities({ path, text }: SourceFile): string[] {
  const { source, is } = foreign(path, text);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const what = fault(node, is);
    if (what !== null)
      found.push(`${path}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1}: ${what}`);
    node.forEachChild(visit);
  };
  visit(source);
  return found;
}
