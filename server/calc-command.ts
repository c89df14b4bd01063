/**
 * `npm run -s calc -- NAME '{json}'`: one calculation, its answer on standard output as JSON, exit 0. What it cannot
 * use: one line on standard error that names the field and what is wanted, exit 2.
 * `npm run -s calc -- --list [NAME]`: what there is, what each takes and gives.
 */
import { calculate, listing } from './calc.ts';
import { fail, print, printText } from './output.ts';

function parsed(name: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    return fail(`${name}: the input is no JSON: ${error instanceof Error ? error.message : String(error)}`);
  }
}

const [first, second, ...rest] = process.argv.slice(2);
if (first === '--list' && rest.length === 0) {
  const list = listing(second);
  if (!list.ok) fail(list.text);
  printText(list.text);
} else {
  if (first === undefined || second === undefined || rest.length > 0 || first.startsWith('-'))
    fail("usage: npm run -s calc -- NAME '{json}', or --list [NAME]");
  // A name that is wrong is said before an input that is wrong.
  const known = listing(first);
  if (!known.ok) fail(known.text);
  const answer = calculate(first, parsed(first, second));
  if (!answer.ok) fail(answer.error);
  print(answer.is);
}
