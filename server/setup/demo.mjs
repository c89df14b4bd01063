/** `npm run demo`: an invented shop in the middle of its day. */
import { launch } from './launch.mjs';

await launch('demo/main.ts');
