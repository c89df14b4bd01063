/** What Hono is told of the server beneath it, so that a handler can see a request's socket. */
import type { HttpBindings } from '@hono/node-server';

export type Env = { Bindings: HttpBindings };
