/**
 * Loaded before the server's program, for tests: the same program as if it were of another version. It speaks the
 * protocol number FIBULA_TEST_PROTOCOL, and serves the pages in FIBULA_TEST_PAGES.
 */
import { register } from 'node:module';

if (process.env.FIBULA_TEST_PROTOCOL) register(import.meta.url.replace(/\.mjs$/, '-load.mjs'));
