/** The house: its walls, its names, its habits. Every check is itself checked on something that must fail it. */
import { describe, expect, it } from 'vitest';
import { needsPackages } from './helpers/house/bare.ts';
import { isCode, ownPaths, readAll } from './helpers/house/files.ts';
import { importsOf } from './helpers/house/imports.ts';
import { impurities } from './helpers/house/purity.ts';
import { rulesWithoutTests } from './helpers/house/rules.ts';
import { strayStrings } from './helpers/house/strings.ts';
import { brokenWalls } from './helpers/house/walls.ts';
import type { Packages } from './helpers/house/walls.ts';
import { strangersAtTop, unwelcomeWords } from './helpers/house/words.ts';

const files = readAll(ownPaths());
const code = files.filter(({ path }) => isCode(path));
const named = JSON.parse(files.find(({ path }) => path === 'package.json')!.text) as Record<string, object>;
const packages: Packages = {
  dependencies: Object.keys(named['dependencies']!),
  devDependencies: Object.keys(named['devDependencies']!),
};

describe('walls', () => {
  it('stand: nobody imports what lies behind one', () => {
    expect(code.length).toBeGreaterThan(20);
    expect(brokenWalls(code, packages)).toEqual([]);
  });

  const some: Packages = {
    dependencies: ['zod', 'hono', 'yjs', 'svelte'],
    devDependencies: ['vitest', '@scope/tool'],
  };
  const broken = (path: string, text: string) => brokenWalls([{ path, text }], some);

  it.each([
    ['core/units.ts', `import { z } from './record/facts.ts'`],
    ['core/maths/cuff.ts', `import type { Fact } from '../record/facts.ts'`],
    ['core/maths/cuff.ts', `export { x } from '../guide/plan.ts'`],
    ['core/record/log.ts', `import { lean } from '../maths/cuff.ts'`],
    ['core/record/log.ts', `let x: import('../guide/plan.ts').Plan`],
    ['core/record/log.ts', `import { randomUUID } from 'node:crypto'`],
    ['core/guide/plan.ts', `import { plan } from '../index.ts'`],
    ['core/guide/plan.ts', `const x = await import(name)`],
    ['core/guide/plan.ts', `import { Hono } from 'hono'`],
    ['core/photo/measure.ts', `import { lean } from '../maths/cuff.ts'`],
    ['core/stray.ts', `export const x = 1`],
    ['server/hub.ts', `import { words } from '../stations/kit/words.ts'`],
    ['server/hub.ts', `import { lean } from '../core/maths/cuff.ts'`],
    ['server/hub.ts', `import { expect } from 'vitest'`],
    ['server/hub.ts', `import x from 'nowhere-named'`],
    ['server/hub.ts', `import { join } from 'path'`],
    ['server/hub.ts', `import { jobs } from '../demo/jobs.ts'`],
    ['server/hub.ts', `new Worker(new URL('../demo/worker.ts', import.meta.url))`],
    ['stations/kit/link.ts', `import { createApp } from '../../server/http.ts'`],
    ['stations/kit/link.ts', `import { main } from '../bench/main.ts'`],
    ['stations/kit/link.ts', `import { Hono } from 'hono'`],
    ['stations/bench/main.ts', `import Floor from '../measuring/Floor.svelte'`],
    ['stations/bench/main.ts', `import * as Y from 'yjs'`],
    [
      'stations/bench/App.svelte',
      `<script lang="ts">\nimport Floor from '../measuring/Floor.svelte'</script>`,
    ],
    ['stations/bench/App.svelte', `<script module lang="ts">import type { A } from '../desk/a.ts'</script>`],
    ['stations/bench/App.svelte', `{#await import('../desk/Board.svelte') then B}<B.default />{/await}`],
    ['stations/main.ts', `import Desk from './desk/App.svelte'`],
    ['demo/main.ts', `import { openStore } from '../server/store.ts'`],
    ['demo/main.ts', `import { until } from '../tests/helpers/until.ts'`],
    ['tests/server/gate.test.ts', `import { words } from '../../stations/kit/words.ts'`],
    ['tests/stations/pair.test.ts', `import Pair from '../../stations/kit/drawing/Pair.svelte'`],
    ['tests/stations/pair.test.ts', `import { a } from '../../stations/bench/a.ts'`],
    ['vite.config.ts', `import { PROTOCOL } from './core/index.ts'`],
  ])('would be seen broken: %s: %s', (path, text) => {
    expect(broken(path, text)).toHaveLength(1);
  });

  it.each([
    [
      'core/guide/plan.ts',
      `import { lean } from '../maths/cuff.ts'; import type { Fact } from '../record/facts.ts'`,
    ],
    ['core/record/facts.ts', `import { z } from 'zod'; import { mm } from '../units.ts'`],
    [
      'server/http.ts',
      `import { Hono } from 'hono'; import { plan } from '../core/index.ts'; import 'node:fs'`,
    ],
    ['stations/kit/link.ts', `import * as Y from 'yjs'; import { PROTOCOL } from '../../core/index.ts'`],
    [
      'stations/desk/App.svelte',
      `<script lang="ts">import { onMount } from 'svelte'; import L from '../kit/ui/L.svelte'</script>`,
    ],
    ['demo/main.ts', `import { plan } from '../core/index.ts'; import { legs } from './legs.ts'`],
    ['tests/stations/pair.test.ts', `import { pairOf } from '../../stations/kit/drawing/pair.ts'`],
    [
      'tests/core/cuff.test.ts',
      `import { lean } from '../../core/maths/cuff.ts'; import x from '@scope/tool/deep'`,
    ],
  ])('let through what may pass: %s: %s', (path, text) => {
    expect(broken(path, text)).toEqual([]);
  });

  it('name the line of an import, in a component too', () => {
    const text = '<h1>x</h1>\n<script lang="ts">\n  import a from "./a.ts";\n</script>\n';
    expect(importsOf({ path: 'stations/desk/App.svelte', text })).toEqual([
      { specifier: './a.ts', line: 3, atLoad: true },
    ]);
  });
});

describe('the core', () => {
  it('has no clock, no chance and no machine', () => {
    const core = code.filter(({ path }) => path.startsWith('core/'));
    expect(core.length).toBeGreaterThan(10);
    expect(core.flatMap(impurities)).toEqual([]);
  });

  it.each([
    'const now = Date.now();',
    'const now = new Date();',
    'const now = Date();',
    'const x = Math.random();',
    'if (process.env.X) x();',
    'console.log(1);',
    'const world = globalThis;',
    'const env = { process };',
    'setTimeout(f, 1);',
    'const b = Buffer.from("a");',
    'const s = (1.5).toLocaleString();',
    'names.sort((a, b) => a.localeCompare(b));',
  ])('would be seen with one: %s', (text) => {
    expect(impurities({ path: 'core/x.ts', text })).toHaveLength(1);
  });

  it('may have members of such names', () => {
    const text = 'const x = { process: 1 }; x.process; new Date(0); interface A { console: string }';
    expect(impurities({ path: 'core/x.ts', text })).toEqual([]);
  });

  it('may have names of its own that hide such a one, where they hide it', () => {
    const text = 'const f = (window: number) => ({ window }); const g = () => window;';
    expect(impurities({ path: 'core/x.ts', text })).toEqual(['core/x.ts:1: window']);
  });
});

describe('what runs before packages are installed', () => {
  it('loads none', () => {
    const starts = code.map(({ path }) => path).filter((path) => /^server\/setup\/[^/]+\.mjs$/.test(path));
    expect(needsPackages(['tests/run.mjs', ...starts], code)).toEqual([]);
  });

  it('would be seen to load one, also by way of another file', () => {
    const some = [
      { path: 'tests/run.mjs', text: `import './a.mjs'; import 'node:fs'; await import('vitest');` },
      { path: 'tests/a.mjs', text: `export { x } from 'yjs';` },
    ];
    expect(needsPackages(['tests/run.mjs'], some)).toEqual([
      'tests/a.mjs:1: loads yjs before it is installed',
    ]);
  });
});

describe('rules', () => {
  const tests = code.filter(({ path }) => path.startsWith('tests/') && path.endsWith('.test.ts'));
  // This file's own examples cite rules that do not exist.
  const citing = tests.filter(({ path }) => path !== 'tests/house.test.ts');

  it('each have a test that cites them, and no test cites another', () => {
    const rules = files.find(({ path }) => path === 'docs/rules.md');
    expect(rules?.text).toContain('# ');
    expect(rulesWithoutTests(rules!.text, citing)).toEqual([]);
  });

  it('are seen without a test, unknown or twice', () => {
    const file = (text: string) => [{ path: 'tests/a.test.ts', text }];
    expect(rulesWithoutTests('CUF-1 Even is even.', [])).toHaveLength(1);
    expect(rulesWithoutTests('- `CUF-1` Even.\n- `CUF-1` Odd.', file('it("[CUF-1] is", f)'))).toHaveLength(1);
    expect(rulesWithoutTests('## CUF-1 Even.', file('it.each([1])("[CUF-1] [CUF-2] %s", f)'))).toHaveLength(
      1,
    );
    expect(
      rulesWithoutTests('**CUF-1** Even.', file('describe("x", () => { test("[CUF-1] a", f) })')),
    ).toEqual([]);
  });
});

describe('words', () => {
  it('left lying and paths of one machine are in no file', () => {
    expect(files.flatMap(unwelcomeWords)).toEqual([]);
  });

  it.each([
    ['// TO' + 'DO later'],
    ['/* FIX' + 'ME */'],
    [`read('/ho${''}me/someone/x')`],
    ['see /tm' + 'p/rules'],
  ])('would be seen: %s', (text) => {
    expect(unwelcomeWords({ path: 'x.ts', text })).toHaveLength(1);
  });
});

describe('the top level', () => {
  it('holds only what belongs there', () => {
    expect(strangersAtTop(ownPaths())).toEqual([]);
  });

  it('would show a stranger', () => {
    const paths = ['scripts/x.sh', 'notes.txt', 'README.md', '.ci/run', 'vite.config.ts', '.prettierrc.json'];
    expect(strangersAtTop(paths)).toEqual(['scripts', 'notes.txt']);
  });
});

describe('sentences', () => {
  const shows = ({ path }: { path: string }) =>
    /^stations\/.*\.(ts|svelte)$/.test(path) && !path.startsWith('stations/kit/words/');

  it('that a station shows stand in its catalogues', () => {
    expect(files.filter(shows).length).toBeGreaterThan(80);
    expect(files.filter(shows).flatMap(strayStrings)).toEqual([]);
  });

  it.each([
    ['<p>Read the gaps</p>'],
    ['<p>Gaps</p>'],
    ['<button aria-label="Close">×</button>'],
    ['<Dialog title="Close it" />'],
    ['<p aria-label={`Gap ${n}`}>{n}</p>'],
    ["<p>{ready ? 'all is well' : words.wait}</p>"],
    ['<p>{`Gap ${n}`}</p>'],
    ['<script lang="ts">const text = \'Read the gaps\';</script>'],
    ['<script module lang="ts">const text = (n: number) => `read ${n} gaps again`;</script>'],
  ])('would be seen in a part: %s', (text) => {
    expect(strayStrings({ path: 'stations/bench/X.svelte', text })).toHaveLength(1);
  });

  it('are named with their line', () => {
    const text =
      '<script lang="ts">\n  const a = 1;\n  const b = "two words";\n</script>\n\n<p>\n  Gaps {a} {b}</p>';
    expect(strayStrings({ path: 'stations/bench/X.svelte', text })).toEqual([
      'stations/bench/X.svelte:6: Gaps',
      'stations/bench/X.svelte:3: two words',
    ]);
    expect(strayStrings({ path: 'stations/bench/x.ts', text: '\n\nsay("two words")' })).toEqual([
      'stations/bench/x.ts:3: two words',
    ]);
  });

  it.each([
    ['<p class="wide low" style="color: var(--a b)">{words.gaps} · {n} mm</p>'],
    ["<p>{words[kind === 'gap' ? 'gap' : 'angle']}</p>"],
    [
      "<script lang=\"ts\">import X from './two words.svelte'; throw new TypeError('no such thing');</script>",
    ],
  ])('are none of these: %s', (text) => {
    expect(strayStrings({ path: 'stations/bench/X.svelte', text })).toEqual([]);
  });
});
