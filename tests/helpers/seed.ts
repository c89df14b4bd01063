/** Random cases are the same every time, for every test that asks for no others: set up once, before any file. */
import fc from 'fast-check';

const asked = process.env['FIBULA_SEED'];
fc.configureGlobal({ seed: asked === undefined ? 20260109 : Number(asked) });
