/** What a person reads on the console. */
import { renderUnicodeCompact } from 'uqr';
import type { Code } from './codes.ts';
import type { Notice } from './notices.ts';

export interface Banner {
  readonly shop: string;
  readonly address: string;
  readonly fingerprint: string | null;
  /** Name announced in the network, without `.local`. */
  readonly name: string | null;
  readonly notices: readonly Notice[];
  readonly isTerminal: boolean;
  readonly logFile: string | undefined;
}

export function banner({ shop, address, fingerprint, name, notices, isTerminal, logFile }: Banner): string {
  const lines = ['', `Fibula · ${shop}`, '', `  Stations open  ${address}`];
  if (isTerminal) lines.push('', renderUnicodeCompact(address, { border: 1 }));
  if (fingerprint !== null) {
    lines.push(
      '',
      `  A new device first trusts this workshop’s certificate: ${address.replace('https:', 'http:')}/trust`,
    );
    lines.push('  Its SHA-256 fingerprint, to compare:', ...halves(fingerprint).map((half) => `    ${half}`));
  }
  if (name !== null) lines.push('', `  Also found as ${name}.local by most devices on the same network`);
  for (const notice of notices) lines.push(noticeText(notice));
  if (logFile !== undefined) lines.push('', `  Logs: ${logFile}`);
  return `${lines.join('\n')}\n`;
}

const NOTICE_WIDTH = 96;

/** A notice in lines that a console holds. */
export function noticeText({ text }: Notice): string {
  const lines = [''];
  for (const word of `NOTICE: ${text}`.split(' ')) {
    const line = `${lines.at(-1)!} ${word}`;
    if (line.length > NOTICE_WIDTH) lines.push(` ${word}`);
    else lines[lines.length - 1] = line;
  }
  return `\n${lines.map((line) => ` ${line}`).join('\n')}`;
}

const halves = (fingerprint: string): string[] => [fingerprint.slice(0, 48), fingerprint.slice(48)];

export function codesText(codes: readonly Code[], timeZone: string): string {
  const until = new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit' });
  const lines = codes.map(
    ({ code, roles, expiresMs }) =>
      `  ${code}  ${roles.join(', ')}  (once, until ${until.format(expiresMs)})`,
  );
  return `\n  Pairing codes\n${lines.join('\n')}\n`;
}

export const MORE_CODES =
  '\n  A new station: make a code at the desk, or: npm run -s code -- --role measuring\n';

/** @param loud when others share the network. */
export const plainWarning = (loud: boolean): string =>
  [
    '',
    ...(loud ? ['  WARNING: plain http on a network that others share.'] : ['  Plain http, as asked.']),
    '  Lost: pages do not load again while offline; no camera; screens cannot be kept awake.',
    '  Pairing cookies, names and readings can be read, and changed, by whoever shares the network.',
    ...(loud ? ['  For a closed bench network or a trial only; leave out --plain for real work.'] : []),
    '',
  ].join('\n');
