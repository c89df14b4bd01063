/** Lists in the documents that must name what is there: dependencies, tests against threats, pictures, links. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PLATFORMS, platformsFor } from '../server/trust-steps.ts';
import { testTitles } from './helpers/house/rules.ts';

const read = (path: string) => readFileSync(path, 'utf8');

describe('dependencies.md', () => {
  interface Package {
    readonly license?: string;
    readonly dependencies?: Record<string, string>;
    readonly devDependencies?: Record<string, string>;
  }
  const rowsOf = (text: string) =>
    [...text.matchAll(/^\| `([^`]+)` \|[^|]+\| ([^|]+) \|[^|]+\|$/gm)].map(([, name, licence]) => ({
      name: name!,
      licence: licence!,
    }));

  it('dependencies.md names exactly the packages of package.json, with their licences', () => {
    const [shop, builders] = read('docs/dependencies.md').split('## For those who build it');
    const { dependencies, devDependencies } = JSON.parse(read('package.json')) as Package;
    const named = (text: string) => rowsOf(text).map(({ name }) => name);
    expect(named(shop!).sort()).toEqual(Object.keys(dependencies!).sort());
    expect(named(builders!).sort()).toEqual(Object.keys(devDependencies!).sort());
    for (const { name, licence } of rowsOf(shop! + builders!))
      expect([name, licence]).toEqual([
        name,
        (JSON.parse(read(`node_modules/${name}/package.json`)) as Package).license,
      ]);
  });
});

describe('the tests that documents name', () => {
  /** `path` and then "titles", up to the next path or the end of the line. */
  function missing(text: string): string[] {
    return text.split('\n').flatMap((line) =>
      [...line.matchAll(/`(tests\/[^`]+\.test\.ts)`((?:[^`"]*"[^"]+")*)/g)].flatMap(([, path, rest]) => {
        if (!existsSync(path!)) return [`${path} does not exist`];
        const titles = testTitles({ path: path!, text: read(path!) }).map((title) =>
          title.slice(1, -1).replace(/\$\{\w+\}/g, '%s'),
        );
        return [...rest!.matchAll(/"([^"]+)"/g)]
          .map(([, title]) => title!)
          .filter((title) => !titles.includes(title))
          .map((title) => `${path} has no test "${title}"`);
      }),
    );
  }

  it.each(['threats', 'privacy', 'faults'])('are there: %s.md', (name) => {
    const text = read(`docs/${name}.md`);
    expect(text).toMatch(/`tests\//);
    expect(missing(text)).toEqual([]);
  });

  it('would be missed', () => {
    expect(missing('`tests/nowhere.test.ts` "x"')).toHaveLength(1);
    expect(missing('`tests/docs-lists.test.ts` "would be missed"; "is not there"')).toHaveLength(1);
  });

  it('every threat has its tests, and says what is not stopped', () => {
    const parts = read('docs/threats.md').split('\n## ').slice(1);
    expect(parts.length).toBeGreaterThanOrEqual(10);
    for (const part of parts) {
      expect(part).toMatch(/tests\//);
      if (!part.startsWith('Honest mistakes')) expect(part).toContain('**Not stopped:**');
    }
  });
});

describe('certificates.md', () => {
  const text = read('docs/certificates.md');

  it('says what the trust page says, for each platform, with its picture', () => {
    for (const { id, title, steps, note } of PLATFORMS) {
      expect(text).toContain(`### ${title}\n\n![The four steps](pictures/trust-${id}.svg)`);
      steps.forEach((step, i) => expect(text).toContain(`${i + 1}. ${step}\n`));
      expect(text).toContain(note);
    }
  });

  it('shows every picture there is', () => {
    const pictures = readdirSync('docs/pictures');
    expect(pictures.length).toBeGreaterThan(10);
    expect(pictures.filter((name) => !text.includes(`pictures/${name}`))).toEqual([]);
  });

  it.each([
    ['Mozilla/5.0 (Linux; Android 14; Tablet) Chrome/126.0 Safari/537.36', ['android']],
    ['Mozilla/5.0 (iPhone; CPU iPhone OS 17_5 like Mac OS X) Safari/604.1', ['ipad']],
    ['Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) Safari/605.1.15', ['mac', 'ipad']],
    ['Mozilla/5.0 (Windows NT 10.0; Win64; x64) Chrome/126.0 Safari/537.36', ['windows']],
    ['Mozilla/5.0 (X11; CrOS x86_64 14541.0.0) Chrome/126.0 Safari/537.36', ['chromebook']],
    ['Mozilla/5.0 (X11; Linux x86_64; rv:127.0) Gecko/20100101 Firefox/127.0', ['linux']],
    ['Mozilla/5.0 (Windows NT 10.0; rv:127.0) Gecko/20100101 Firefox/127.0', ['linux']],
    ['something else', ['android']],
  ])('%s is told its own steps first', (agent, first) => {
    const ids = platformsFor(agent).map(({ id }) => id);
    expect(ids.slice(0, first.length)).toEqual(first);
    expect([...ids].sort()).toEqual(PLATFORMS.map(({ id }) => id).sort());
  });
});

it('no document links to a file that is not there', () => {
  const pages = ['README.md', 'DEVELOPERS.md', ...readdirSync('docs').map((name) => `docs/${name}`)];
  const broken = pages
    .filter((page) => page.endsWith('.md'))
    .flatMap((page) =>
      [...read(page).matchAll(/\]\(([^)#\s]+)(?:#[^)]*)?\)/g)]
        .map(([, target]) => target!)
        .filter((target) => !/^[a-z]+:/.test(target) && !existsSync(join(dirname(page), target)))
        .map((target) => `${page}: ${target}`),
    );
  expect(broken).toEqual([]);
});
