/** Words of the corner's pages on the server and on clients' data. */
import { inLanguage, locale } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/keeping.ts';
import { size } from './size.ts';

const sessions = (n: number): string => `${n} ${n === 1 ? 'session' : 'sessions'}`;
const backups = (n: number): string => `${n} daily ${n === 1 ? 'backup' : 'backups'}`;

/** `25 November 2026`, in the shop's own time zone. */
export const day = (iso: string | number, timeZone: string): string =>
  new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone }).format(new Date(iso));

const serverEn = {
  notices: 'To be dealt with',
  noNotices: 'Nothing needs you.',
  /** By the server's code; the server's own sentences follow. */
  notice: {
    'address-changed': 'The server’s address has changed',
    'names-uncovered': 'An address is not in the certificate',
    'authority-replaced': 'Stations must trust this server anew',
    'authority-next': 'The next authority is ready',
    'authority-ends': 'The shop’s authority ends soon',
    'authority-ended': 'The shop’s authority has ended',
    'clock-behind': 'The server’s clock is wrong',
  } as Readonly<Record<string, string>>,
  otherNotice: 'The server asks for attention',
  backupNotice: 'Backups need somebody',
  backupTodo: (directory: string): string =>
    `On the shop’s computer: is ${directory} there, may it be written, and is there space? It is tried again every 15 minutes. Until then copy by hand, there:`,
  backupCommand: 'npm run backup -- FILE',

  address: 'Address',
  addressTodo: 'What stations open. A fixed address for this computer in the router keeps it so.',
  byName: (name: string): string => `also ${name}`,
  certificate: 'Certificate',
  made: (made: string, ends: string): string => `Renewed on ${made}, ends on ${ends}`,
  madeTodo: (renews: string): string =>
    `Nothing to do: it is renewed by itself from ${renews} on, and no station notices.`,
  authority: 'Authority',
  authorityEnds: (ends: string): string => `Ends on ${ends}`,
  authorityTodo: 'What stations trust. A year before its end this page says what to do.',
  fingerprint: 'Fingerprint',
  fingerprintTodo: 'Compare it before a new station is told to trust the authority.',
  plain: 'None: the server runs over plain http',
  plainTodo:
    'Whoever shares the network can read along, and stations cannot reload while offline. Start the server without --plain.',

  backups: 'Backups',
  lastGood: 'Last good one',
  lastGoodIs: (when: string, bytes: number | null): string =>
    bytes === null ? when : `${when}, ${size(bytes)}`,
  none: 'None yet',
  noneTodo: 'The first is made once there is a job.',
  due: (time: string): string =>
    `One is made every day from ${time}, read again from beginning to end, and then named.`,
  neverDue:
    'None are made by themselves: the server was started with --backup-at never. By hand: npm run backup -- FILE',
  place: 'Where',
  placeTodo: 'Best on another disk: a copy beside the original dies with it (--backups DIR).',
  copies: (n: number): string => `${n} ${n === 1 ? 'copy' : 'copies'} kept`,
};

export const server: Words<typeof serverEn> = inLanguage(serverEn, german.server);

const clientsEn = {
  title: 'A client’s data',
  lead: 'Save all that is kept of one client as a file, or erase what is personal.',
  search: 'Name or contact',
  searchHint: 'Two letters or more.',
  nobody: 'Nobody found.',
  open: 'Open',
  back: 'Search again',
  reference: (ref: string): string => `Reference ${ref}`,
  sessions: (n: number): string => (n === 0 ? 'No sessions.' : `${sessions(n)}:`),
  session: (ticket: string | null, opened: string): string =>
    ticket === null ? `opened ${opened}` : `Ticket ${ticket}, opened ${opened}`,
  closed: 'handed over',
  stillOpen: 'still open',
  sessionFile: 'Session as a file',
  file: 'Save all that is kept as a file',
  erase: 'Erase personal data',
  eraseTitle: (name: string): string => `Erase the personal data of “${name}”?`,
  goes: 'Gone for good',
  goesWhat: (n: number): string =>
    `Name, contact, language, photos, and every text in ${n === 0 ? 'their sessions' : sessions(n)} in which somebody could have written anything.`,
  stays: 'Stays',
  staysWhat:
    'Boots, readings, settings, plates, times and all numbers of the plan, under a reference that names nobody.',
  openStill: (n: number): string =>
    `${sessions(n)} still open: stations that show ${n === 1 ? 'it' : 'them'} come back by themselves without the texts.`,
  typeName: 'Type the name of the client',
  typeNameHint: (name: string): string => `As it is kept: ${name}`,
  backups: 'Also rewrite the daily backups',
  backupsHint:
    'Else they hold the data until they are old enough to go. Copies made by hand are yours to delete.',
  eraseDo: 'Erase for good',
  erasing: 'Erasing. Leave this page open.',
  erased: (n: number, rewritten: number): string =>
    `Erased: the person, and the texts of ${sessions(n)}.${rewritten > 0 ? ` Rewritten: ${backups(rewritten)}.` : ''}`,
  notRewritten: (n: number): string =>
    `${backups(n)} could not be rewritten and still ${n === 1 ? 'holds' : 'hold'} the data. The server’s log says why.`,
};
export const clients: Words<typeof clientsEn> = inLanguage(clientsEn, german.clients);
