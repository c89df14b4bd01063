/** `npm run restore -- FILE`: a backup in the place of the database. */
import { launch } from './launch.mjs';

await launch('server/restore-command.ts', { build: false });
