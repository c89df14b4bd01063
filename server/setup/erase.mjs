/** `npm run erase -- REF`: a client's personal data, gone for good. */
import { launch } from './launch.mjs';

await launch('server/erase-command.ts', { build: false });
