/** What a file imports, types included, found by parsing it. */
import { parse } from 'svelte/compiler';
import ts from 'typescript';
import type { SourceFile } from './files.ts';

export interface Import {
  /** What stands in quotes; null where it is computed, so that nobody can say what is imported. */
  readonly specifier: string | null;
  readonly line: number;
  /** Loaded when the file is loaded: not by a call, and not for its types alone. */
  readonly atLoad: boolean;
}

const literal = (node: ts.Node | undefined): string | null =>
  node && ts.isStringLiteralLike(node) ? node.text : null;

/** The specifiers that this one node imports; null in the list for a computed one. */
function importedBy(node: ts.Node): (string | null)[] {
  if (ts.isImportDeclaration(node)) return [literal(node.moduleSpecifier)];
  if (ts.isExportDeclaration(node)) return node.moduleSpecifier ? [literal(node.moduleSpecifier)] : [];
  if (ts.isImportTypeNode(node))
    return [ts.isLiteralTypeNode(node.argument) ? literal(node.argument.literal) : null];
  if (ts.isExternalModuleReference(node)) return [literal(node.expression)];
  if (ts.isCallExpression(node)) {
    const callee = node.expression;
    if (callee.kind === ts.SyntaxKind.ImportKeyword) return [literal(node.arguments[0])];
    if (ts.isIdentifier(callee) && callee.text === 'require') return [literal(node.arguments[0])];
    if (callee.getText() === 'import.meta.glob') return [literal(node.arguments[0])];
  }
  // A worker or another program started beside this file: new URL('./x.ts', import.meta.url).
  if (ts.isNewExpression(node) && node.arguments?.[1]?.getText() === 'import.meta.url') {
    const beside = literal(node.arguments[0]);
    return beside && /\.(ts|mts|js|mjs|svelte)$/.test(beside) ? [beside] : [];
  }
  return [];
}

const isAtLoad = (node: ts.Node): boolean =>
  (ts.isImportDeclaration(node) && node.importClause?.phaseModifier !== ts.SyntaxKind.TypeKeyword) ||
  (ts.isExportDeclaration(node) && !node.isTypeOnly);

function importsOfScript(path: string, text: string, firstLine: number): Import[] {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true, ts.ScriptKind.TS);
  const found: Import[] = [];
  const visit = (node: ts.Node): void => {
    const line = firstLine + source.getLineAndCharacterOfPosition(node.getStart()).line;
    found.push(...importedBy(node).map((specifier) => ({ specifier, line, atLoad: isAtLoad(node) })));
    node.forEachChild(visit);
  };
  visit(source);
  return found;
}

/** Dynamic imports in the markup of a component, which stand in no script. */
function importsOfMarkup(node: unknown, lineAt: (offset: number) => number): Import[] {
  if (typeof node !== 'object' || node === null) return [];
  if (Array.isArray(node)) return node.flatMap((child) => importsOfMarkup(child, lineAt));
  const { type, start, source } = node as {
    type?: string;
    start?: number;
    source?: { type?: string; value?: unknown };
  };
  const here =
    type === 'ImportExpression'
      ? [
          {
            specifier: source?.type === 'Literal' ? String(source.value) : null,
            line: lineAt(start ?? 0),
            atLoad: false,
          },
        ]
      : [];
  return [...here, ...Object.values(node).flatMap((child) => importsOfMarkup(child, lineAt))];
}

export function importsOf({ path, text }: SourceFile): Import[] {
  if (!path.endsWith('.svelte')) return importsOfScript(path, text, 1);
  const lineAt = (offset: number) => text.slice(0, offset).split('\n').length;
  const component = parse(text, { modern: true });
  const scripts = [component.instance, component.module].flatMap((script) => {
    if (!script) return [];
    const { start, end } = script.content as unknown as { start: number; end: number };
    return importsOfScript(path, text.slice(start, end), lineAt(start));
  });
  return [...scripts, ...importsOfMarkup(component.fragment, lineAt)];
}
