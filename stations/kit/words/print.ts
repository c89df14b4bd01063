/** Words of the sheet on which a paper is chosen and sent to the browser's print dialog. */
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import type { Paper } from '../paper/papers.ts';
import * as german from './de/print.ts';

const papersEn: Record<Paper, string> = {
  booking: 'Booking card',
  ticket: 'Ticket',
  tags: 'Boot tags',
  inside: 'Inside-boot labels',
  bench: 'Bench card',
  card: 'Alignment card',
  record: 'Shop record',
};
export const paperWord: Words<typeof papersEn> = inLanguage(papersEn, german.paperWord);

const printEn = {
  open: 'Print',
  title: 'Print',
  due: (papers: readonly string[]): string => `due: ${papers.join(', ')}`,
  which: 'Which paper',
  dueNow: '● due now',
  roll: (width: string): string => `receipt roll, ${width} mm`,
  folded: 'A4, folded to A5',
  language: 'Language of the paper',
  on: 'Printed on',
  rolls: { receipt: 'Receipt roll', a6: 'Card, A6' },
  boots: 'Which boots',
  both: 'both',
  state: 'Which state',
  now: 'as it stands now',
  handedOver: (when: string): string => `as handed over, ${when}`,
  leftUnfit: (when: string): string => `as it left unfit, ${when}`,
  go: 'Print it',
  goHint: 'the browser asks for the printer; size 100 %, margins none',
  preview: 'The paper as it will be printed',
  coming: 'The paper is being drawn.',
  running: (papers: readonly string[]): string => `Goes to the printer: ${papers.join(', then ')}.`,
};
export const print: Words<typeof printEn> = inLanguage(printEn, german.print);
