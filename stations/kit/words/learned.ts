/** Words of what the shop has learned from its moves. */
import type { LeftOutBecause, MoveState } from '../../../core/index.ts';
import { inLanguage, locale } from '../language.ts';
import type { Words } from '../language.ts';
import { shown, signed } from '../numbers.ts';
import * as german from './de/learned.ts';

const learnedEn = {
  title: 'What the shop has learned',
  lead: 'Every move that was read before and after says how boots really answer. A new session takes it when its boot is described; a session that runs keeps what it began with.',
  nothing: 'Nothing yet: no cuff was read, moved and read again in the same conditions.',
  shop: (k: string, low: string, high: string): string =>
    `All boots: a move does ${k} of what the shape of the boot says, 9 times of 10 within ${low} and ${high}.`,
  model: 'Model',
  answers: 'Answers',
  answersHint: 'share of the move by its shape; 9 of 10 within',
  boots: 'Boots',
  moves: 'Moves',
  show: (model: string): string => `Moves of ${model}`,
  range: (k: string, low: string, high: string): string => `${k} (${low} to ${high})`,
  percent: (share: number): string => `${Math.round(share * 100)} %`,
  more: (count: number): string => `and ${count} more, with fewer moves`,
  plot: {
    title: (model: string): string => `${model}: change of bias, foretold and read, in mm`,
    foretold: 'foretold',
    read: 'read',
    as: 'as foretold',
    within: 'foretold, 9 of 10',
    asked: 'far off',
    out: 'left out',
    describe: (count: number, held: number, far: number): string =>
      `${count} ${count === 1 ? 'move' : 'moves'}; ${held} of them changed as foretold, within 9 of 10; ${far} far off.`,
    table: 'The same as a table',
    one: (predicted: number, within: number, observed: number): string =>
      `foretold ${signed(predicted)} ± ${shown(within)}, read ${signed(observed)}`,
  },
  far: {
    heading: 'Far off: true, or a slip?',
    none: 'No move is far off.',
    lead: 'Until somebody decides, such a move counts only as far as an odd but honest one would.',
    says: (observed: number, predicted: number, sd: number): string =>
      `The bias changed by ${signed(observed)} mm where ${signed(predicted)} ± ${shown(sd)} was foretold.`,
    job: (ticket: string | null, side: string, model: string): string =>
      `${ticket === null ? 'A finished job' : `Ticket ${ticket}`}, ${side} ${model}`,
    keep: 'Leave it in',
    leaveOut: 'Leave it out',
    reopen: 'Ask again',
    why: 'Why is it left out?',
    reasons: {
      misread: 'A gap was misread',
      pivots: 'The pivots stood otherwise',
      stance: 'The skier stood otherwise',
      boot: 'Something is wrong with the boot',
      other: 'Another reason',
    } as Readonly<Record<LeftOutBecause, string>>,
    state: {
      used: 'counts',
      asked: 'nobody has decided',
      kept: 'left in: counts in full',
      out: 'left out: does not count',
    } as Readonly<Record<MoveState, string>>,
    decided: {
      kept: (by: string, when: string): string => `Left in at ${by}, ${when}`,
      out: (by: string, when: string, reason: string): string => `Left out at ${by}, ${when}: ${reason}`,
      asked: (by: string, when: string): string => `Asked again at ${by}, ${when}`,
    },
  },
  scores: {
    heading: 'How well it was foretold',
    month: 'Month',
    first: 'First move enough',
    held80: '8 of 10 held',
    held90: '9 of 10 held',
    of: (count: number, all: number): string =>
      all === 0 ? '–' : `${Math.round((100 * count) / all)} % (${count} of ${all})`,
    title: 'First move enough, month by month, in per cent',
    point: (month: string, percent: number, all: number): string =>
      `${month}: ${percent} % of ${all} ${all === 1 ? 'cuff' : 'cuffs'}`,
    hint: 'An interval that says 9 of 10 should hold 9 of 10. Much more often, and it is too wide; much less, and the error of a gap reading is larger than the settings say.',
  },
  unreachable: 'The shop’s server does not answer.',
};
export const learnedWords: Words<typeof learnedEn> = inLanguage(learnedEn, german.learnedWords);

/** `Jan 2026` from `2026-01`; what is no month stays as it is. */
export function monthText(month: string): string {
  const middle = new Date(`${month}-15T12:00:00Z`);
  if (Number.isNaN(middle.getTime())) return month;
  return new Intl.DateTimeFormat(locale, { month: 'short', year: 'numeric', timeZone: 'UTC' }).format(middle);
}
