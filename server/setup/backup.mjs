/** `npm run backup -- FILE`: a verified copy of the database. */
import { launch } from './launch.mjs';

await launch('server/backup-command.ts', { build: false });
