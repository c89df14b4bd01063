/** The table of all limits for docs/limits.md: what may be set from its table, the rest from the code and its comments. */
import { readFileSync } from 'node:fs';
import ts from 'typescript';
import { LIMIT_NAMES, SETTABLE } from '../../server/limit-table.ts';

interface Fixed {
  readonly name: string;
  readonly value: string;
  readonly why: string;
}

/** The numbers of the constant `name` in `file`, each with the comment above it. Throws where one has none. */
export function constantsOf(file: string, text: string, name: string): Fixed[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: Fixed[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isVariableDeclaration(node) && node.name.getText() === name) {
      const value = node.initializer;
      const object = value && ts.isAsExpression(value) ? value.expression : value;
      if (object && ts.isObjectLiteralExpression(object))
        for (const property of object.properties)
          if (ts.isPropertyAssignment(property)) found.push(row(property));
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  if (found.length === 0) throw new Error(`${file}: there is no table ${name}`);
  return found;
}

function row(property: ts.PropertyAssignment): Fixed {
  const name = property.name.getText();
  const [doc] = ts.getJSDocCommentsAndTags(property);
  const why = doc && ts.isJSDoc(doc) ? ts.getTextOfJSDocComment(doc.comment) : undefined;
  if (!why) throw new Error(`${name} has no comment that says why`);
  return { name, value: property.initializer.getText().replaceAll('_', ''), why: why.replace(/\s+/g, ' ') };
}

const grouped = (value: number | string): string => String(value).replace(/\B(?=(\d{3})+$)/g, ' ');

const fixedTable = (file: string, name: string): string =>
  [
    '| limit | value | what and why |',
    '| --- | --- | --- |',
    ...constantsOf(file, readFileSync(file, 'utf8'), name).map(
      ({ name: limit, value, why }) => `| \`${limit}\` | ${grouped(value)} | ${why} |`,
    ),
  ].join('\n');

const settableTable = (): string =>
  [
    '| limit | standard | from … to | unit | what and why |',
    '| --- | --- | --- | --- | --- |',
    ...LIMIT_NAMES.map((name) => {
      const { standard, least, most, unit, why } = SETTABLE[name];
      return `| \`${name}\` | ${grouped(standard)} | ${grouped(least)} … ${grouped(most)} | ${unit} | ${why} |`;
    }),
  ].join('\n');

export const limitsPage = (): string =>
  `${[
    '# Every limit',
    'Made from the code by `npm run docs`. The standard values leave room for a shop with twenty screens; who meets one is told which, and how many are allowed.',
    '## What a shop may set',
    'With `--limit name=value`, as often as needed: `npm start -- --limit requestsPer10s=500 --limit socketsPerStation=6`. An unknown name, or a value out of its range, is an error at start.',
    settableTable(),
    '## What the server keeps to',
    fixedTable('server/limits.ts', 'BOUND'),
    '## What stations and server agree on',
    'Nobody sets these: a station would offer what the server does not take.',
    fixedTable('core/wire.ts', 'LIMIT'),
  ].join('\n\n')}\n`;
