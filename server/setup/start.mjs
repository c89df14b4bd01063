/** `npm start`: the server, made ready first. */
import { launch } from './launch.mjs';

await launch('server/main.ts');
