/** A station that is a program: it comes in by the front door, with a pairing code and a cookie. */
import { PROTOCOL } from '../core/index.ts';
import type { StationRole } from '../core/index.ts';
import { Room } from './room.ts';

export interface Me {
  readonly device: string;
  readonly number: number;
  readonly name: string;
  readonly roles: readonly StationRole[];
  readonly boot: string | number;
  readonly generation: number;
  readonly protocol: number;
}

/** Throws the server's own sentence when it says no. */
async function ask(
  url: string,
  method: string,
  path: string,
  body: unknown,
  cookie?: string,
): Promise<Response> {
  const response = await fetch(new URL(path, url), {
    method,
    headers: {
      origin: new URL(url).origin,
      ...(cookie ? { cookie } : {}),
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
    },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  if (response.ok) return response;
  const said = (await response.json().catch(() => null)) as { error?: { code: string; text: string } } | null;
  throw new Error(
    `${method} ${path}: ${response.status} ${said?.error?.code ?? ''} ${said?.error?.text ?? ''}`.trim(),
  );
}

export class Station {
  readonly url: string;
  readonly cookie: string;
  readonly me: Me;
  readonly initials: string | undefined;

  private constructor(url: string, cookie: string, me: Me, initials?: string) {
    this.url = url;
    this.cookie = cookie;
    this.me = me;
    this.initials = initials;
  }

  /** Throws when the code is wrong, used or too old, or the server speaks another protocol. */
  static async pair(url: string, code: string, name: string, initials?: string): Promise<Station> {
    const response = await ask(url, 'POST', '/api/pair', { code, name });
    const cookie = response.headers.getSetCookie().find((line) => line.startsWith('fibula='));
    if (!cookie) throw new Error('POST /api/pair: no cookie came back');
    const me = (await response.json()) as Me;
    if (me.protocol !== PROTOCOL)
      throw new Error(`the server speaks protocol ${me.protocol}, this program ${PROTOCOL}`);
    return new Station(new URL(url).origin, cookie.split(';')[0]!, me, initials);
  }

  /** The answer as JSON. */
  async request<T>(method: string, path: string, body?: unknown): Promise<T> {
    return (await (await ask(this.url, method, path, body, this.cookie)).json()) as T;
  }

  /** A pairing code for others; a desk may ask for it. */
  async code(roles: readonly StationRole[]): Promise<string> {
    return (await this.request<{ code: string }>('POST', '/api/codes', { roles })).code;
  }

  /** Enter a session in the room that the server names; resolves when all that the server has of it is here. */
  async enter(session: string): Promise<Room> {
    const { device, number } = this.me;
    const { room: name } = await this.request<{ room: string }>('GET', `/api/sessions/${session}/room`);
    const room = new Room(name, {
      url: this.url,
      cookie: this.cookie,
      device,
      number,
      ...(this.initials ? { initials: this.initials } : {}),
    });
    await room.synced();
    return room;
  }
}
