/** `npm run -s plan -- FILE`: a session file in, its plan out; with `--explain` before it, where the numbers come from. */
import { launch } from './launch.mjs';

await launch('server/plan-command.ts', { build: false });
