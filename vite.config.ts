/** Builds the station pages. Everything a page needs is in the build: nothing is fetched from elsewhere. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';
import type { Plugin } from 'vite';

const page = (path: string) => new URL(`stations/${path}`, import.meta.url).pathname;
const WORKER = 'sw.js';

/** What is asked for to get a file: a page goes by the name of its folder. */
const addressOf = (file: string) => `/${file.split(sep).join('/')}`.replace(/\/index\.html$/, '') || '/';

const filesIn = (folder: string) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1));

/** Tells the service worker the files of its build and their hashes, so that it takes all of them or none. */
const listFiles = (): Plugin => ({
  name: 'list-files-for-the-service-worker',
  apply: 'build',
  writeBundle({ dir }) {
    const folder = dir!;
    const files = filesIn(folder)
      .filter((file) => file !== WORKER)
      .sort();
    const sha256 = (content: string | Buffer) => createHash('sha256').update(content).digest('hex');
    const hashes = Object.fromEntries(
      files.map((file) => [addressOf(file), sha256(readFileSync(join(folder, file)))]),
    );
    const code = readFileSync(join(folder, WORKER), 'utf8');
    const version = sha256(JSON.stringify(hashes) + code).slice(0, 16);
    const build = JSON.stringify({ version, files: hashes });
    writeFileSync(join(folder, WORKER), `const FIBULA_BUILD=${build};\n${code}`);
  },
});

/** Small once, here, instead of at each request; gzip for browsers that take brotli over https only. */
const compress = (): Plugin => ({
  name: 'compress',
  apply: 'build',
  writeBundle({ dir }) {
    for (const file of filesIn(dir!)) {
      const path = join(dir!, file);
      const content = readFileSync(path);
      writeFileSync(`${path}.br`, brotliCompressSync(content));
      writeFileSync(`${path}.gz`, gzipSync(content, { level: 9 }));
    }
  },
});

export default defineConfig({
  root: page(''),
  base: '/',
  plugins: [svelte(), listFiles(), compress()],
  // Two copies of yjs would each think the other's documents foreign.
  resolve: { dedupe: ['yjs'] },
  build: {
    outDir: new URL('build/stations', import.meta.url).pathname,
    emptyOutDir: true,
    target: 'es2022',
    // The content policy allows scripts and styles from our own address only, so nothing is inlined.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      // The core does nothing by being loaded, so what a page's first part does not use of it may come with another.
      treeshake: { moduleSideEffects: (id) => !id.includes('/core/') },
      input: {
        home: page('index.html'),
        measuring: page('measuring/index.html'),
        bench: page('bench/index.html'),
        desk: page('desk/index.html'),
        wall: page('wall/index.html'),
        parts: page('parts/index.html'),
        paper: page('paper/index.html'),
        sw: page('kit/sw/worker.ts'),
      },
      output: {
        // Its address is its identity: it must not change from build to build.
        entryFileNames: ({ name }) => (name === 'sw' ? WORKER : 'assets/[name]-[hash].js'),
      },
    },
  },
});
