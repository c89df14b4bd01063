/** `npm run -s export -- REF`: all that is kept of one client. */
import { launch } from './launch.mjs';

await launch('server/export-command.ts', { build: false });
