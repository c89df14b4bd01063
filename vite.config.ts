/** Builds the station pages. Everything a page needs is in the build: nothing is fetched from elsewhere. */
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

const page = (path: string) => new URL(`stations/${path}`, import.meta.url).pathname;

export default defineConfig({
  root: page(''),
  base: '/',
  plugins: [svelte()],
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
      input: {
        home: page('index.html'),
        measuring: page('measuring/index.html'),
        bench: page('bench/index.html'),
        desk: page('desk/index.html'),
        wall: page('wall/index.html'),
      },
    },
  },
});
