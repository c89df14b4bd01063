/** Words that all stations share. Every sentence a person reads on a station lives in this folder, or in the plan. */
import type { Adjuster, RefusalCode, Side, StationRole, StepName, StepStatus } from '../../../core/index.ts';
import { shown } from '../numbers.ts';
import { inLanguage, locale } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/common.ts';

const sidesEn = {
  word: (side: Side): string => (side === 'left' ? 'left' : 'right'),
  Word: (side: Side): string => (side === 'left' ? 'Left' : 'Right'),
  adjuster: (adjuster: Adjuster): string => (adjuster === 'lateral' ? 'lateral' : 'medial'),
};
export const sides: Words<typeof sidesEn> = inLanguage(sidesEn, german.sides);
export const { word: sideWord, Word: Sided, adjuster: adjusterWord } = sides;

const roleWordEn: Record<StationRole, string> = {
  measuring: 'Measuring',
  bench: 'Bench',
  desk: 'Front desk',
  wall: 'Wall screen',
};
export const roleWord: Words<typeof roleWordEn> = inLanguage(roleWordEn, german.roleWord);

const stepWordEn: Record<StepName, string> = {
  intake: 'Intake',
  ready: 'Boot ready',
  cuff: 'Cuff lean',
  stance: 'Stance',
  cant: 'Cant',
  sole: 'Sole',
  binding: 'Binding check',
  handover: 'Hand-over',
};
export const stepWord: Words<typeof stepWordEn> = inLanguage(stepWordEn, german.stepWord);

const statusWordEn: Record<StepStatus, string> = {
  blocked: 'blocked',
  ready: 'to do',
  waiting: 'waiting',
  done: 'done',
  stale: 'out of date',
  waived: 'decided against',
};
export const statusWord: Words<typeof statusWordEn> = inLanguage(statusWordEn, german.statusWord);

export const statusSign: Record<StepStatus, string> = {
  blocked: '▨',
  ready: '○',
  waiting: '◔',
  done: '●',
  stale: '⟲',
  waived: '⊘',
};

const refusalWordEn: Record<RefusalCode, string> = {
  shape: 'A field is missing or out of bounds',
  identity: 'It was written under another station',
  permission: 'This station may not write that',
  'id-taken': 'Another entry has the same id',
  opening: 'A session is opened once, and first',
  'unknown-target': 'What it strikes is not in this session',
  full: 'The session holds all it can',
  erased: 'Notes of this session were erased, and it takes no new ones',
};
export const refusalWord: Words<typeof refusalWordEn> = inLanguage(refusalWordEn, german.refusalWord);

const commonEn = {
  product: 'Fibula',
  language: 'Language',
  languageHeld: 'Not now: an entry waits that would be lost. Choose again once all is saved.',
  close: 'Close',
  back: 'Back',
  cancel: 'Cancel',
  cautions: 'Cautions',
  signalWord: { warning: 'WARNING', caution: 'CAUTION', notice: 'NOTICE' },
  notANumber: 'Not a number. Type digits, with a comma or a point.',
  outside: (min: number, max: number, unit: string): string =>
    `Must be ${shown(min)} to ${shown(max)}${unit ? ` ${unit}` : ''}.`,
  saved: 'saved',
  waiting: 'waiting to be saved',
  allSaved: 'All saved',
  waitingCount: (n: number): string => `${n} waiting to be saved`,
  connecting: 'Connecting',
  connected: 'Connected',
  alsoHere: 'Also here',
  switchStation: 'Switch station',
  station: 'Station',
  initials: 'Your initials',
  initialsHint: 'Put on each entry you make at this station.',
  wipe: 'Wipe the glass',
  wipeHint: 'the screen does not react for 20 seconds',
  wiping: (seconds: number): string => `Wipe now. The screen wakes in ${seconds} seconds.`,
  loading: 'Fetching from the shop',
  noRole: (role: string): string => `This station has not been granted the work of “${role}”.`,
  noRoleHint: 'Enter a code that grants it, or go on at another station.',
  nobody: 'Name not known here',
  mm: 'mm',
  edit: 'Change',
  undo: 'Undo last entry',
  undone: 'Undone',
  strike: 'Strike through',
  reinstate: 'Bring back',
  strikeTitle: 'Strike through an entry',
  strikeWhy: 'Why is it wrong?',
  strikeHint: 'Nothing is deleted: the entry stays readable, with this reason.',
  struck: (reason: string): string => `struck: ${reason}`,
  reasons: ['wrong side', 'typing error', 'entered twice', 'boot was not ready'],
  photos: 'Photos',
  record: 'Entries',
  recordTitle: 'All entries of this session',
  problems: 'Look at this',
  stale: 'out of date',
};
export const common: Words<typeof commonEn> = inLanguage(commonEn, german.common);

const homeEn = {
  title: 'Which station is this?',
  lead: 'One tap. You can switch whenever your station has more than one kind of work.',
  about: {
    measuring: 'On the floor, beside the standing skier',
    bench: 'At the press: what to do now, boot by boot',
    desk: 'Intake, the board of open jobs, hand-over',
    wall: 'Ticket numbers for the waiting room, no names',
  },
  thisStation: (name: string): string => `This browser is “${name}”.`,
  pageTitle: (what: string): string => `${what} · Fibula`,
  notYet: 'This browser is not a station of the shop yet.',
};
export const home: Words<typeof homeEn> = inLanguage(homeEn, german.home);

const pairingEn = {
  title: 'Make this browser a station',
  lead: 'Type the six digits from the front desk or from the server’s console. They are good for ten minutes, once.',
  code: 'Pairing code',
  name: 'Name of this station',
  nameHint: 'As people call it: “floor tablet”, “press”.',
  go: 'Pair this station',
  wrong: 'This code is not known, was used, or is older than ten minutes. Ask for a new one.',
  unreachable: 'The shop’s server does not answer.',
  digits: 'Digits',
  erase: 'Erase',
};
export const pairing: Words<typeof pairingEn> = inLanguage(pairingEn, german.pairing);

const wallStage: Record<StepName, string> = {
  intake: 'taken in',
  ready: 'being made ready',
  cuff: 'cuffs',
  stance: 'stance',
  cant: 'stance',
  sole: 'soles',
  binding: 'binding check',
  handover: 'hand-over',
};

const wallEn = {
  title: 'Tickets',
  nothing: 'No boots in the shop right now.',
  pickup: 'ready to be picked up',
  stage: (stage: StepName | null): string => (stage === null ? 'finished' : wallStage[stage]),
};
export const wall: Words<typeof wallEn> = inLanguage(wallEn, german.wall);

/** `Thu 27 Nov, 16:00`, in the shop's own time zone. */
export const moment = (iso: string | number, timeZone: string): string =>
  new Intl.DateTimeFormat(locale, {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
    timeZone,
  }).format(new Date(iso));

export const clock = (iso: string | number, timeZone: string): string =>
  new Intl.DateTimeFormat(locale, { hour: '2-digit', minute: '2-digit', timeZone }).format(new Date(iso));

const agoEn = {
  now: 'just now',
  minutes: (n: number): string => `${n} min`,
  hours: (n: number): string => `${n} h`,
  days: (n: number): string => `${n} days`,
};
export const ago: Words<typeof agoEn> = inLanguage(agoEn, german.ago);

/** Whole minutes, hours or days since; `just now` under one minute. */
export function since(ms: number, nowMs: number): string {
  const minutes = Math.floor((nowMs - ms) / 60_000);
  if (minutes < 1) return ago.now;
  if (minutes < 90) return ago.minutes(minutes);
  const hours = Math.round(minutes / 60);
  return hours < 36 ? ago.hours(hours) : ago.days(Math.round(hours / 24));
}

/** A name in the middle of a sentence: small in English, as it is in German, where nouns stay great. */
export const amid: (name: string) => string = inLanguage(
  (name: string) => name.toLowerCase(),
  (name: string) => name,
);
