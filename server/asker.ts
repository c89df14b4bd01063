/** Who asks over HTTP: the station behind the cookie, what it may, and what it is told of itself. */
import type { Context } from 'hono';
import { getCookie, setCookie } from 'hono/cookie';
import { PROTOCOL, STATION_ROLES } from '../core/index.ts';
import type { StationRole } from '../core/index.ts';
import { No } from './answer.ts';
import { COOKIE } from './entrance.ts';
import type { Keeper } from './keeper.ts';
import type { Shop } from './meta.ts';
import type { Origins } from './origins.ts';
import type { Station, Stations } from './pair.ts';

export interface AskerDeps {
  readonly stations: Stations;
  readonly origins: Origins;
  readonly shop: Shop;
  readonly boot: number;
  /** Of new sessions. */
  readonly generation: number;
  readonly keeper: Keeper;
}

/** Seconds a browser keeps the cookie: browsers cap it at 400 days, and every start of a page renews it. */
const COOKIE_SECONDS = 400 * 24 * 3600;

export const REVOKED = 'This station was revoked at the desk.';

export const tokenOf = (c: Context): string | undefined => getCookie(c, COOKIE);

/** Who asks, if paired and granted one of `roles`; throws a `No` otherwise. */
export function need(
  { stations }: Pick<AskerDeps, 'stations'>,
  c: Context,
  roles: readonly StationRole[] = STATION_ROLES,
): Station {
  const token = tokenOf(c);
  const station = stations.authenticate(token);
  if (!station && stations.revoked(token)) throw new No(401, 'revoked', REVOKED);
  if (!station) throw new No(401, 'unpaired', 'This station is not paired, or no longer.');
  if (!station.roles.some((role) => roles.includes(role)))
    throw new No(
      403,
      'forbidden',
      `This is for ${roles.join(' and ')}; this station is ${station.roles.join(' and ')}.`,
    );
  return station;
}

export function keepCookie({ origins }: Pick<AskerDeps, 'origins'>, c: Context, token: string): void {
  const secure = origins.scheme === 'https';
  setCookie(c, COOKIE, token, {
    httpOnly: true,
    sameSite: 'Strict',
    secure,
    path: '/',
    maxAge: COOKIE_SECONDS,
  });
}

export const me = (
  { boot, generation, keeper, origins, shop }: AskerDeps,
  { device, number, name, roles }: Station,
) => ({
  device,
  number,
  name,
  roles,
  boot,
  generation,
  backup: roles.includes('desk') ? keeper.lastBackup : null,
  protocol: PROTOCOL,
  plain: origins.scheme === 'http',
  shop,
});
