/** The page of all parts shows all: each component of the kit by itself, or inside another that is shown. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const STATIONS = new URL('../../stations/', import.meta.url).pathname;
const svelteFiles = (folder: string) =>
  readdirSync(join(STATIONS, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.svelte'))
    .map((file) => join(folder, file));
const nameOf = (file: string) => /([^/]+)\.svelte$/.exec(file)![1]!;
/** Components that a file loads, at once or later. */
const loads = (file: string) =>
  [...readFileSync(join(STATIONS, file), 'utf8').matchAll(/[('"]([./\w-]+\/(\w+)\.svelte)['"]/g)].map(
    ([, , name]) => name!,
  );

const kit = svelteFiles('kit');
const page = svelteFiles('parts');
const sampled = page.flatMap((file) =>
  [...readFileSync(join(STATIONS, file), 'utf8').matchAll(/<Sample name="(\w+)"/g)].map(([, name]) => name!),
);

describe('the page of all parts', () => {
  it('shows each component of the kit', () => {
    const shown = new Set([...sampled, ...page.flatMap(loads)]);
    for (let before = -1; before < shown.size;) {
      before = shown.size;
      for (const file of kit) if (shown.has(nameOf(file))) for (const name of loads(file)) shown.add(name);
    }
    expect(kit.map(nameOf).filter((name) => !shown.has(name))).toEqual([]);
  });

  it('names nothing that is not there', () => {
    expect(sampled.length).toBeGreaterThan(15);
    expect(sampled.filter((name) => !kit.some((file) => nameOf(file) === name))).toEqual([]);
  });
});
