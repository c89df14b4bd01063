/** What somebody in the shop should know or do about the server's address and certificates, in words. */
import type { ServerCertificate } from './certificates.ts';

export interface Notice {
  readonly code:
    | 'address-changed'
    | 'names-uncovered'
    | 'authority-replaced'
    | 'authority-next'
    | 'authority-ends'
    | 'authority-ended'
    | 'clock-behind';
  readonly text: string;
}

export interface Situation {
  readonly nowMs: number;
  /** IANA time zone of the shop. */
  readonly timeZone: string;
  readonly address: string;
  /** Where the stations went before, when that was elsewhere. */
  readonly addressWas: string | null;
  /** The authority that the stations trusted before, when that was another. */
  readonly fingerprintWas: string | null;
  /** Null over plain http. */
  readonly certificate: ServerCertificate | null;
}

/** Months before its end that an authority is spoken of: time to meet every tablet of a seasonal shop. */
const WARN_MS = 365 * 86_400_000;

export const NEW_AUTHORITY = 'npm run authority -- --renew';
export const NEXT_AUTHORITY = 'npm run authority -- --prepare';
export const GUIDE = 'docs/certificates.md';

/** In the order of how much they hurt. */
export function noticesOf(situation: Situation): Notice[] {
  const { certificate } = situation;
  const ofCertificate = certificate ? certificateNotices(certificate, situation) : [];
  return [...ofCertificate, ...addressNotices(situation)];
}

function addressNotices({ address, addressWas }: Situation): Notice[] {
  if (addressWas === null || addressWas === address) return [];
  return [
    {
      code: 'address-changed',
      text:
        `The server’s address has changed: it was ${addressWas} and is ${address} now. ` +
        'Open the new address on every station and pair it there. Entries that a tablet still shows as waiting ' +
        `stay under the old address: look at each tablet first, and where something waits, give this machine ` +
        `its old address back until it is saved. A fixed address in the router keeps this from happening.`,
    },
  ];
}

function certificateNotices(certificate: ServerCertificate, situation: Situation): Notice[] {
  const { nowMs, fingerprintWas } = situation;
  const day = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone: situation.timeZone });
  const notices: Notice[] = [];
  if (nowMs < certificate.authorityBeginsMs)
    notices.push({
      code: 'clock-behind',
      text:
        `This machine’s clock says ${day.format(nowMs)}, which is before its certificates were made ` +
        `(${day.format(certificate.authorityBeginsMs)}). Set the clock: until then times are wrong, and ` +
        'certificates are not renewed.',
    });
  if (fingerprintWas !== null && fingerprintWas !== certificate.fingerprint)
    notices.push({
      code: 'authority-replaced',
      text:
        'This server has another certificate authority than the stations know. Each station has to trust the ' +
        `new one before it can connect: ${GUIDE}, “A new server machine”.`,
    });
  if (certificate.uncovered.length > 0)
    notices.push({ code: 'names-uncovered', text: uncoveredText(certificate.uncovered) });
  notices.push(...authorityNotices(certificate, nowMs, day));
  return notices;
}

function uncoveredText(names: readonly string[]): string {
  const [is, them] = names.length === 1 ? ['is', 'it'] : ['are', 'them'];
  return (
    `${names.join(', ')} ${is} not in the certificate: the shop’s authority was made before ${them} and may not ` +
    `vouch for ${them}. Stations that use another address are not touched. To use ${them}, make a new authority ` +
    `with: ${NEW_AUTHORITY}. Every station must then trust it anew.`
  );
}

function authorityNotices(
  { authorityEndsMs, next }: ServerCertificate,
  nowMs: number,
  day: Intl.DateTimeFormat,
): Notice[] {
  const end = day.format(authorityEndsMs);
  if (next)
    return [
      {
        code: 'authority-next',
        text:
          `A new certificate authority is ready. Let every station trust it from the trust page, then go over ` +
          `to it with: npm run authority -- --switch. The present one works until ${end}.`,
      },
    ];
  if (authorityEndsMs <= nowMs)
    return [
      {
        code: 'authority-ended',
        text:
          `The shop’s certificate authority ended on ${end}, and browsers refuse this server. ` +
          `If this machine’s clock is right, make a new one with: ${NEW_AUTHORITY}. Every station must then ` +
          `trust it: ${GUIDE}.`,
      },
    ];
  if (authorityEndsMs - nowMs <= WARN_MS)
    return [
      {
        code: 'authority-ends',
        text:
          `The shop’s certificate authority ends on ${end}. Make the next one in good time with: ` +
          `${NEXT_AUTHORITY}. The present one works on meanwhile: ${GUIDE}, “After ten years”.`,
      },
    ];
  return [];
}
