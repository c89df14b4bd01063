/** `npm run -s calc -- NAME '{json}'`: one calculation of the core, by itself. */
import { launch } from './launch.mjs';

await launch('server/calc-command.ts', { build: false });
