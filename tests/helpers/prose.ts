/** Pieces of prose in a program's source: what stands in its quotes and templates, without the placed values. */
import { readdirSync, readFileSync } from 'node:fs';
import ts from 'typescript';

export interface Piece {
  readonly text: string;
  /** `core/guide/next.ts:55` */
  readonly at: string;
}

export const filesUnder = (folder: string, ending = '.ts'): string[] =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map((entry) => `${entry.parentPath}/${entry.name}`)
    .sort();

/** Quoted texts of a program and the parts of its templates; not the modules that it imports, nor what a bug throws. */
export function piecesOf(source: string, name: string, firstLine = 1): Piece[] {
  const file = ts.createSourceFile(name, source, ts.ScriptTarget.Latest, true);
  const found: Piece[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isImportTypeNode(node)) return;
    if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) return;
    if (ts.isNewExpression(node) && /^\w*Error$/.test(node.expression.getText(file))) return;
    if (ts.isStringLiteralLike(node) || ts.isTemplateLiteralToken(node)) {
      const line = file.getLineAndCharacterOfPosition(node.getStart()).line + firstLine;
      found.push({ text: node.text, at: `${name}:${line}` });
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

export const piecesIn = (path: string, root: string): Piece[] =>
  piecesOf(readFileSync(path, 'utf8'), path.replace(root, ''));

/** Words beside each other, or words beside a placed value. */
export const isProse = (text: string): boolean => /[A-Za-z]+[,;:.]? .*[A-Za-z]|^[,;:.]? \w+|\w+ $/.test(text);
