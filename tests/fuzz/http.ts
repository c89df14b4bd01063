/** Requests on every route, whole and broken, and what no answer may be. */
import { exchange } from './bare.ts';
import type { HttpTally, HttpTarget } from './bare.ts';
import type { Chance } from './chance.ts';
import { BODIES, EXTRA, HOSTS, METHODS, ORIGINS, PATHS } from './http-parts.ts';

interface Asked {
  readonly text: string;
  /** Asks for a name that is not the server's. */
  readonly foreignName: boolean;
  /** A change that comes from another page than the server's own. */
  readonly foreignPage: boolean;
  /** Asked by nobody the server knows. */
  readonly unpaired: boolean;
  /** Says truly how long it is, and asks for nothing else: there must be an answer. */
  readonly plain: boolean;
  readonly method: string;
  readonly path: string;
}

const isAscii = (text: string): boolean => Buffer.byteLength(text) === text.length;

function path(chance: Chance, route: string, session: string): string {
  const filled = route.replace(/:\w+/g, () =>
    chance.pick([
      session,
      'c1',
      '0',
      '-1',
      '999',
      '__proto__',
      '%00',
      '..%2f..',
      `${'x'.repeat(5_000)}`,
      '%F0%9F%A5%BE',
      '1e3',
      'a%0d%0aX:1',
      '%',
    ]),
  );
  return filled === '*'
    ? '/'
    : filled +
        (chance.once(6)
          ? chance.pick(['?', '?q=', '?q=%00', '?q[]=1&q[]=2', `?q=${'z'.repeat(4_000)}`, '/', '//', '#x'])
          : '');
}

/** A change is only ever made by those who may change nothing that matters; the desk's cookie asks, or is misused. */
function request(chance: Chance, target: HttpTarget): Asked {
  const host = new URL(target.url).host;
  const route = chance.pick(target.routes);
  const method = chance.once(3) || route.method === 'ALL' ? chance.pick(METHODS) : route.method;
  const where = chance.once(4) ? chance.pick(PATHS) : path(chance, route.path, target.session);
  const asDesk = chance.once(4);
  const reads = method === 'GET' || method === 'HEAD';
  const wrongHost = chance.once(8);
  const wrongOrigin = chance.once(4) || (asDesk && !reads);
  const cookie = asDesk ? target.desk : chance.pick(target.cookies);
  const body = chance.once(2) ? chance.pick(BODIES) : '';
  const lengthOff = chance.once(9) ? chance.under(9) - 4 : 0;
  const extra = chance.once(3);
  const origin = wrongOrigin ? chance.pick(ORIGINS) : `http://${wrongHost ? 'elsewhere.example' : host}`;
  const headers = [
    `Host: ${wrongHost ? chance.pick(HOSTS) : host}`,
    ...(wrongOrigin && chance.once(3) ? [] : [`Origin: ${origin}`]),
    ...(cookie === '' ? [] : [`Cookie: ${cookie}`]),
    ...(extra ? [chance.pick(EXTRA)] : []),
    ...(body === ''
      ? []
      : ['Content-Type: application/json', `Content-Length: ${Buffer.byteLength(body) + lengthOff}`]),
    'Connection: close',
  ];
  const text = `${method} ${where} HTTP/${chance.once(20) ? chance.pick(['1.0', '0.9', '2.0', '9']) : '1.1'}\r\n${headers.join('\r\n')}\r\n\r\n${body}`;
  return {
    text,
    method,
    path: where,
    plain: !extra && lengthOff === 0 && method !== 'CONNECT' && isAscii(body),
    foreignName: wrongHost,
    foreignPage: wrongOrigin && !reads,
    unpaired: !/fibula=[\w-]{43}$/.test(cookie) || /^fibula=A{43}$/.test(cookie),
  };
}

/** Milliseconds after which a request that was cut short has been looked at long enough. */
const SHORT_MS = 30;
/** … and one that says it is longer than it is, which waits until its time is over; that is shown elsewhere. */
const LONG_MS = 400;

/** What no answer may be, whoever asks; null when all is well. */
function wrong({ path: where, foreignName, foreignPage, unpaired }: Asked, status: number): string | null {
  const good = status >= 200 && status < 300;
  const isApi = where.startsWith('/api/');
  if (status === 500) return 'made the server fail';
  if (good && foreignName) return 'was answered under a foreign name';
  if (good && foreignPage && isApi) return 'was done for a foreign page';
  if (good && unpaired && isApi && !/^\/api\/(let-in|pair)/.test(where)) return 'was answered to nobody';
  return null;
}

export async function oneRequest(chance: Chance, target: HttpTarget, tally: HttpTally): Promise<void> {
  const asked = request(chance, target);
  const whole = Buffer.from(asked.text, chance.once(2) ? 'utf8' : 'latin1');
  const isCut = chance.once(6);
  const bytes = Buffer.from(isCut ? whole.subarray(0, chance.under(whole.length)) : whole);
  for (let left = chance.once(5) ? chance.under(4) : 0; left > 0 && !asked.text.includes(target.desk); left--)
    bytes[chance.under(bytes.length)] = chance.under(256);
  const isWhole = bytes.equals(whole);
  const answered = isWhole && asked.plain;
  const said = await exchange(target, bytes, { answered, limitMs: isCut ? SHORT_MS : LONG_MS });
  const status = Number(/^HTTP\/1\.[01] (\d{3}) /.exec(said)?.[1] ?? 0);
  tally.requests += 1;
  tally.statuses.set(status, (tally.statuses.get(status) ?? 0) + 1);
  const why = wrong(asked, status);
  const fault = (what: string) => tally.faults.push(`${JSON.stringify(asked.text.slice(0, 400))} ${what}`);
  if (said !== '' && status === 0) fault(`was answered with ${JSON.stringify(said.slice(0, 80))}`);
  if (said === '' && answered) fault('was not answered');
  if (why && isWhole) fault(`${why}: ${status}`);
}
