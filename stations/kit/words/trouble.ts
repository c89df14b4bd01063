/** What a station says when something is in its way: the connection, the device's store, another tab, a version. */
import type { CopyState } from '../copy.ts';
import type { Health } from '../store/device.ts';
import { common } from './common.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/trouble.ts';

const connectionEn = {
  offline: 'No connection. Keep working: entries are kept here.',
  offlineUnkept: 'No connection, and this device keeps nothing.',
  notHere: 'No connection, and this device has not had this session open yet. It comes with the connection.',
  outdated: 'The shop runs another version.',
  unreachable: 'The shop’s server does not answer. Trying again.',
  awaiting:
    'The shop’s server has been restored and does not have this session yet. Keep the desk’s station on: it brings the session back, and entries from here follow.',
  goneSession: 'The shop does not know this session.',
  damaged:
    'This session is damaged on the shop’s computer. Keep working: entries wait on this device. Whoever looks after the server finds at its console what to do.',
  forbidden: 'The shop does not let this station into this session.',
};
export const connection: Words<typeof connectionEn> = inLanguage(connectionEn, german.connection);

/** What stands in the place of a session that is not there yet. */
export function missing(state: CopyState): string {
  if (state === 'gone') return connection.goneSession;
  return state === 'offline' ? connection.notHere : common.loading;
}

const storageEn: Record<Exclude<Health, 'well'>, string> = {
  full: 'This device is full and cannot keep entries. Free some space on it; do not close this page before all is saved.',
  failed:
    'This browser cannot keep entries on this device. Do not close this page before all is saved. Close other Fibula pages, and leave private browsing.',
};
export const storage: Words<typeof storageEn> = inLanguage(storageEn, german.storage);

const tabEn = {
  showsOnly: 'this page only shows: enter it in the other Fibula tab, or close that one',
  second:
    'Fibula is open in another tab of this browser. This tab only shows. Enter things there, or close it: then this tab takes over.',
};
export const tab: Words<typeof tabEn> = inLanguage(tabEn, german.tab);

const versionEn = {
  ready: 'A new version is here. It takes over when this page is loaded again.',
  reload: 'Load it now',
  renewing: 'The shop runs another version. Fetching its pages.',
  pageOld:
    'The shop’s server is newer than its pages. Whoever looks after the server runs `npm start` there; then load this page again. Entries wait here.',
  serverOld:
    'This page is newer than the shop’s server. Whoever looks after the server updates it; then load this page again. Entries wait here.',
  unsaved:
    'The shop runs another version, and this device cannot keep what waits. Write it down, then load this page again.',
};
export const version: Words<typeof versionEn> = inLanguage(versionEn, german.version);

const partEn = {
  failed: 'A part of this page did not come. What you entered is kept.',
  again: 'Load the page again',
};
export const part: Words<typeof partEn> = inLanguage(partEn, german.part);

const refusedEn = {
  title: 'Not taken by the shop',
  hint: 'Kept on this device until you decide. “Try again” offers it once more; or enter it anew and let this one go.',
  tryAgain: 'Try again',
  letGo: 'Let go',
  copy: 'Copy as text',
  copied: 'Copied',
  asText: 'Mark it and copy it',
  still: 'Still not taken',
  elsewhere: (count: number): string =>
    count === 1
      ? 'The shop did not take an entry of another job.'
      : `The shop did not take ${count} entries of other jobs.`,
  show: (ticket: string): string => (ticket ? `Show ${ticket}` : 'Show it'),
};
export const refused: Words<typeof refusedEn> = inLanguage(refusedEn, german.refused);
