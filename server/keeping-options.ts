/** The part of the command line that says how backups and personal data are kept. */
import { resolve } from 'node:path';
import { DEFAULT_KEEPING } from './keeper.ts';
import type { KeepingOptions } from './keeper.ts';

export const KEEPING_USAGE = `  --backup-at HH:MM when the daily backup is due, by the shop's clock; never for none (03:00)
  --backups DIR     where daily backups go (backups in the data directory)
  --keep-backups N  how many: days,weeks,months (14,8,12)
  --keep-days N     days that names and notes are kept after the last job was closed, or forever (1095)
`;

export const KEEPING_ARGS = {
  'backup-at': { type: 'string' },
  backups: { type: 'string' },
  'keep-backups': { type: 'string' },
  'keep-days': { type: 'string' },
} as const;

/** Throws an `Error` with one sentence for the person who typed it. */
export function readKeeping(values: { readonly [K in keyof typeof KEEPING_ARGS]?: string }): KeepingOptions {
  return {
    ...DEFAULT_KEEPING,
    ...(values.backups === undefined ? {} : { backups: resolve(values.backups) }),
    ...(values['backup-at'] === undefined ? {} : { backupAt: readTime(values['backup-at']) }),
    ...(values['keep-backups'] === undefined ? {} : { keepBackups: readKeep(values['keep-backups']) }),
    ...(values['keep-days'] === undefined ? {} : { keepDays: readDays(values['keep-days']) }),
  };
}

function readTime(text: string): string | null {
  if (text === 'never') return null;
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(text))
    throw new Error(`--backup-at must be a time like 03:00, or never (is ${text}).`);
  return text;
}

function readKeep(text: string): KeepingOptions['keepBackups'] {
  const match = /^(\d{1,4}),(\d{1,4}),(\d{1,4})$/.exec(text);
  const [days, weeks, months] = (match ?? []).slice(1).map(Number);
  if (!days || weeks === undefined || months === undefined)
    throw new Error(
      `--keep-backups must be days,weeks,months like 14,8,12, with a day at least (is ${text}).`,
    );
  return { days, weeks, months };
}

function readDays(text: string): number | null {
  if (text === 'forever') return null;
  if (!/^\d{1,5}$/.test(text))
    throw new Error(`--keep-days must be a number of days, or forever (is ${text}).`);
  return Number(text);
}
