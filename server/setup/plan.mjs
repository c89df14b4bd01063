/** `npm run -s plan -- FILE`: a session file in, its plan out. */
import { launch } from './launch.mjs';

await launch('server/plan-command.ts', { build: false });
