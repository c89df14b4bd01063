/** Words of a station that is none any more, or not yet again. */
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/revoked.ts';

const entries = (n: number): string => `${n} ${n === 1 ? 'entry' : 'entries'}`;

const revokedEn = {
  title: 'This station was revoked',
  lead: 'The front desk has ended its access. Nothing that was entered here is lost.',
  atDesk: (n: number): string =>
    `${entries(n)} ${n === 1 ? 'waits' : 'wait'} for the desk: it takes them in or throws them away.`,
  taken: (n: number): string => `${entries(n)} taken in by the desk.`,
  thrown: (n: number): string =>
    `${entries(n)} thrown away by the desk; kept on this device with the reason.`,
  here: (n: number): string => `${entries(n)} on this device only.`,
  nothing: 'This device held no entries that the shop does not have.',
  looking: 'Looking for entries that the shop does not have.',
  storeFailed: 'This device’s own store cannot be read. Do not clear this browser’s data; ask for help.',
  unreachable: 'The shop’s server does not answer. They are kept here, and it is tried again.',
  full: 'The desk has no room for more until it has decided on what is there. They are kept here.',
  notKept: (reason: string): string => `The server does not keep some: ${reason}. They are kept here.`,
  thrownWhy: 'the desk threw it away after this station was revoked',
};
export const revoked: Words<typeof revokedEn> = inLanguage(revokedEn, german.revoked);

const letInEn = {
  title: 'Was this station paired before?',
  lead: (device: string): string =>
    `This browser remembers being “${device}”. The desk can let it back in without a code.`,
  ask: 'Ask the desk to let this station back in',
  number: 'Compare this number with the one at the desk',
  waiting: 'Waiting for the desk: “Locked corner”, then “Let back in”.',
  until: 'It is good for ten minutes. Leave this page open.',
  stop: 'Stop asking',
  refused: 'The desk said no. Ask there why, or enter a code.',
  gone: 'The request has ended. Ask again.',
  unreachable: 'The shop’s server does not answer. Try again.',
};
export const letIn: Words<typeof letInEn> = inLanguage(letInEn, german.letIn);
