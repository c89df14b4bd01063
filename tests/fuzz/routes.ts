/** Every route of the server, found in its code: one that is added is attacked without being named here. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface Route {
  readonly method: string;
  /** Like `/api/people/:ref`. */
  readonly path: string;
}

const ROUTE = /\bapp\s*\.(get|post|put|patch|delete|all)(?:<[^>]*>)?\(\s*'([^']+)'/g;

export const routesIn = (code: string): Route[] =>
  [...code.matchAll(ROUTE)].map(([, method, path]) => ({ method: method!.toUpperCase(), path: path! }));

/** Throws when so few are found that the search must be wrong. */
export function routesOf(directory: string): Route[] {
  const files = readdirSync(directory, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.ts'),
  );
  const routes = files.flatMap((file) => routesIn(readFileSync(join(directory, file), 'utf8')));
  if (routes.length < 10) throw new Error(`only ${routes.length} routes were found in ${directory}`);
  return routes;
}
