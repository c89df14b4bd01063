/** Every route of the server, asked of a running one: one that is added is attacked without being named here. */
import { run } from '../server/helpers/running.ts';

export interface Route {
  readonly method: string;
  /** Like `/api/people/:ref`. */
  readonly path: string;
}

/** With those that are there over https only. What looks at every request is no route. */
export async function routesOfServer(): Promise<Route[]> {
  const running = await run({ plain: false });
  try {
    return running.server.routes.filter(({ method }) => method !== 'ALL');
  } finally {
    await running.close();
  }
}
