/** Words of the desk's locked corner. */
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/corner.ts';

const entries = (n: number): string => `${n} ${n === 1 ? 'entry' : 'entries'}`;

const cornerEn = {
  title: 'Locked corner',
  lock: 'Lock now',
  openUntil: (time: string): string => `Open until ${time}, or until you lock it`,
  lockedAgain: 'The corner has locked itself, since nothing was done in it.',
  loading: 'Asking the server',
  unreachable: 'The shop’s server does not answer. Try again.',

  pinTitle: 'Enter the PIN of this shop',
  pinLead:
    'Behind it: the stations of the shop, its settings, clients’ data, backups, and what a revoked station left behind.',
  pin: 'PIN',
  pinForgotten:
    'Forgotten? Whoever runs the server types there: npm run -s pin. Then a new one can be set here.',
  unlock: 'Open the corner',
  waitFor: (seconds: number): string =>
    seconds <= 60 ? `Wait ${seconds} s` : `Wait ${Math.ceil(seconds / 60)} min`,
  firstTitle: 'Choose a PIN for this shop',
  firstLead:
    'The corner has none yet. Six to twelve digits that people at the desk do not guess; write it down where the owner keeps papers.',
  newPin: 'New PIN',
  again: 'The same again',
  digits: '6 to 12 digits',
  differs: 'The two differ. Type the same PIN twice.',
  short: 'A PIN has 6 to 12 digits.',
  setPin: 'Set this PIN',
  changePin: 'Change the PIN',
  oldPin: 'Present PIN',
  pinChanged: 'The PIN was changed. Other desks are locked.',

  parts: {
    stations: 'Stations',
    requests: 'Let back in',
    quarantine: 'Left behind',
    codes: 'New station',
    settings: 'Settings',
    opening: 'Hours',
    studies: 'Studies',
    clients: 'Clients',
    server: 'Server',
    pin: 'PIN',
  },

  stations: 'The stations of this shop',
  columns: { name: 'Name', work: 'Work', seen: 'Last seen', paired: 'Paired' },
  thisDesk: 'this desk',
  connected: 'connected now',
  never: 'never',
  revokedOn: (when: string): string => `revoked ${when}`,
  number: (n: number, device: string): string => `No. ${n}, ${device}`,
  change: 'Change',
  changeTitle: (name: string): string => `Change “${name}”`,
  changeHint:
    'The station comes back by itself as what it is then. A page that is open may have to be loaded again.',
  name: 'Name of this station',
  roles: 'What this station may do',
  roleMissing: 'Choose at least one.',
  nameMissing: 'A name is needed.',
  ownDesk: 'This is the desk you are at: it stays a desk, and is revoked from another one.',
  keep: 'Keep this',
  revoke: 'Revoke',
  revokeTitle: (name: string): string => `Revoke “${name}”?`,
  revokeWhat:
    'For a tablet that was lost, stolen or given away. It is out at once. What was entered there and has not arrived can still be handed in; it waits under “Left behind” until you decide.',
  revokeDo: 'Revoke this station',
  revoked: (name: string): string => `“${name}” was revoked.`,
  changed: (name: string): string => `“${name}” was changed.`,

  requests: 'Stations that ask to be let back in',
  noRequests: 'No station asks.',
  requestsHint: 'A station that has lost its pairing asks on its own screen. It shows up here by itself.',
  compare: 'Its screen must show',
  asksAs: {
    known: (name: string, device: string): string => `“${name}” (${device})`,
    revoked: (name: string, device: string): string => `“${name}” (${device})`,
    unknown: (device: string): string => `says it is ${device}`,
  },
  standing: {
    known: 'This shop knows it. It comes back with the same number and the same work.',
    revoked: (when: string): string =>
      `It was revoked on ${when}. Let it in only if you have the device in your hands and know why it was revoked.`,
    unknown:
      'This shop does not know it: it may be from before a backup was restored, or from elsewhere. Say what it may do.',
  },
  from: (address: string, ago: string): string => `from ${address}, asked ${ago}`,
  ago: (since: string): string => (since === 'just now' ? since : `${since} ago`),
  letIn: 'The numbers are the same: let it in',
  letInRevoked: 'The numbers are the same: let the revoked station in',
  sayNo: 'Say no',
  lettingIn: 'It comes in within seconds.',

  quarantine: 'Entries that a revoked station still held',
  noBacklogs: 'Nothing was left behind.',
  backlogOf: (name: string, ticket: string | null): string =>
    ticket === null ? `${name}, a session the shop does not have` : `${name}, ticket ${ticket}`,
  handedIn: (when: string): string => `handed in ${when}`,
  waitingEntries: (n: number): string => `${entries(n)} to decide on`,
  takenEntries: (n: number): string => `${entries(n)} taken in`,
  thrownEntries: (n: number): string => `${entries(n)} thrown away`,
  look: 'Look',
  backToList: 'All of them',
  state: { waiting: 'to decide', refused: 'not taken', taken: 'taken in', thrown: 'thrown away' },
  inSession: 'is in its session',
  takeIn: (n: number): string => `Take in ${entries(n)}`,
  takeInHint: 'as entries of that station',
  export: 'Save them as a file',
  throwAway: 'Throw away',
  throwTitle: (n: number): string => `Throw away ${entries(n)}?`,
  throwWhat:
    'They do not come into the session. Save them as a file first if anybody may ask; for a month this can still be done here.',
  throwDo: (n: number): string => `Throw ${entries(n)} away`,

  code: 'Make a browser a station of the shop',
};
export const corner: Words<typeof cornerEn> = inLanguage(cornerEn, german.corner);
