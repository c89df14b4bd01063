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

/** The name of the member in `a.name = …`, `{ name: … }` and types is no use of a global of that name. */
function isName(node: ts.Identifier): boolean {
  const { parent } = node;
  return (
    (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
    ((ts.isPropertyAssignment(parent) ||
      ts.isPropertySignature(parent) ||
      ts.isPropertyDeclaration(parent) ||
      ts.isMethodDeclaration(parent) ||
      ts.isMethodSignature(parent) ||
      ts.isEnumMember(parent)) &&
      parent.name === node)
  );
}

function fault(node: ts.Node): string | null {
  if (ts.isIdentifier(node) && GLOBALS.has(node.text) && !isName(node)) return node.text;
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
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const what = fault(node);
    if (what !== null)
      found.push(`${path}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1}: ${what}`);
    node.forEachChild(visit);
  };
  visit(source);
  return found;
}
