/** Loaded with a no of the server: `planText` has the German of what the server says from then on. */
import { teach } from './de/plan.ts';
import { SERVER } from './de/plan/server.ts';

teach(SERVER);
