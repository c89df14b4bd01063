/** The numbers of the shop, as the server tells them (`docs/protocol.md`). */
import { dayText } from '../../core/index.ts';
import type { NumbersTold, Period } from '../../core/index.ts';
import { ask } from './api.ts';
import { percent } from './numbers.ts';

const query = ({ from, to }: Period): string => `?from=${dayText(from)}&to=${dayText(to - 1)}`;

export const shopNumbers = {
  told: (period: Period) => ask<NumbersTold>('GET', `/api/numbers${query(period)}`),
  /** Where the same stands as a file for other programs. */
  table: (period: Period) => `/api/numbers/table${query(period)}`,
};

/** The shop's day at this moment, as a text of the calendar. */
export const shopDay = (ms: number, timeZone: string): string =>
  new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short' }).format(ms);

/** Of fewer than these no share is told without its interval, and no time within which 80 % were through. */
export const FEW = 5;

/** A share whose sign stays on its line. */
export const percentTogether = (share: number): string => percent(share).replace(' ', '\u00a0');
