/** `npm start`: the server, made ready first. */
import { launch } from './launch.mjs';
import { BUILT_SERVER } from './ready.mjs';

await launch(BUILT_SERVER);
