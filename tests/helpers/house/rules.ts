/** Rules with names, and the tests that cite them. */
import ts from 'typescript';
import type { SourceFile } from './files.ts';

/** Ids of the rules in `docs/rules.md`: a line that begins with one, after any list or heading mark. */
export const ruleIds = (markdown: string): string[] =>
  markdown.split('\n').flatMap((line) => /^[\s|>*_`#-]*([A-Z]{3}-\d+)\b/.exec(line)?.[1] ?? []);

/** The function at the root of `it.each(…)`, `describe.skip`, `test`. */
function rootName(node: ts.Node): string {
  if (ts.isIdentifier(node)) return node.text;
  if (ts.isPropertyAccessExpression(node) || ts.isCallExpression(node) || ts.isTaggedTemplateExpression(node))
    return rootName(ts.isTaggedTemplateExpression(node) ? node.tag : node.expression);
  return '';
}

/** Titles of the tests and their groups, as written. */
export function testTitles({ path, text }: SourceFile): string[] {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const titles: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && ['it', 'test', 'describe'].includes(rootName(node.expression))) {
      const [title] = node.arguments;
      if (title && (ts.isStringLiteralLike(title) || ts.isTemplateExpression(title)))
        titles.push(title.getText());
    }
    node.forEachChild(visit);
  };
  visit(source);
  return titles;
}

/** Ids in square brackets in a title: `[CUF-3] …`, `[CUF-3] [CUF-4] …`. */
export const citedIds = (title: string): string[] =>
  [...title.matchAll(/\[([A-Z]{3}-\d+)\]/g)].map((m) => m[1]!);

/** One line for each rule that no test cites, each id that no rule has, and each id that two rules have. */
export function rulesWithoutTests(markdown: string, tests: readonly SourceFile[]): string[] {
  const ids = ruleIds(markdown);
  const rules = new Set(ids);
  const cited = tests.flatMap((file) =>
    testTitles(file).flatMap((title) => citedIds(title).map((id) => ({ id, path: file.path }))),
  );
  const tested = new Set(cited.map(({ id }) => id));
  return [
    ...ids.filter((id, i) => ids.indexOf(id) !== i).map((id) => `docs/rules.md: ${id} stands there twice`),
    ...[...rules].filter((id) => !tested.has(id)).map((id) => `docs/rules.md: no test cites ${id}`),
    ...cited
      .filter(({ id }) => !rules.has(id))
      .map(({ id, path }) => `${path}: cites ${id}, which is no rule`),
  ];
}
