/** What a station's first picture waits for stays small: a tablet on the far side of the shop loads it over a poor radio. */
import { expect, it } from 'vitest';
import { firstPage } from '../bench/helpers/first-page.ts';

const BUILD = new URL('../../build/stations', import.meta.url).pathname;
const MOST_BYTES = 150_000;

it.each(['measuring', 'bench', 'desk', 'wall'])('the first page of the %s station, compressed', (name) => {
  const { files, brotliBytes } = firstPage(BUILD, `${name}/index.html`);
  expect(files).toBeGreaterThan(5);
  expect(brotliBytes).toBeLessThan(MOST_BYTES);
});
