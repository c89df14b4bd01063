/** The papers of a shop: which there are, how large each is, and what one is made from. */
import type { Fact, Side } from '../../../core/index.ts';

export const PAPERS = ['booking', 'ticket', 'tags', 'inside', 'bench', 'card', 'record'] as const;
export type Paper = (typeof PAPERS)[number];

/** What the ticket is printed on. */
export const ROLLS = ['receipt', 'a6'] as const;
export type Roll = (typeof ROLLS)[number];

/** Everything that a paper shows. Whoever has the same job has the same paper, now or in ten years. */
export interface PrintJob {
  readonly paper: Paper;
  readonly roll: Roll;
  /** Boots that a sheet is wanted for, where each has its own. */
  readonly sides: readonly Side[];
  /** The session up to the moment that is printed. */
  readonly facts: readonly Fact[];
  /** Name of the skier; null where nobody knows it here. */
  readonly client: string | null;
  readonly shop: { readonly name: string; readonly timeZone: string };
}

/** In millimetres. `heightMm` null: as long as what stands on it. `marginMm`: of each page, kept by the printer. */
export interface SheetSize {
  readonly widthMm: number;
  readonly heightMm: number | null;
  readonly marginMm: number;
}

const LABEL: SheetSize = { widthMm: 100, heightMm: 50, marginMm: 0 };
const SIZES: Readonly<Record<Paper, SheetSize>> = {
  booking: { widthMm: 105, heightMm: 148, marginMm: 0 },
  ticket: { widthMm: 105, heightMm: 148, marginMm: 0 },
  tags: LABEL,
  inside: LABEL,
  bench: { widthMm: 148, heightMm: 210, marginMm: 0 },
  card: { widthMm: 297, heightMm: 210, marginMm: 0 },
  record: { widthMm: 210, heightMm: 297, marginMm: 14 },
};
/** A roll of 80 mm; what is printed stays within 72 mm, which is all that a receipt printer reaches. */
const RECEIPT: SheetSize = { widthMm: 80, heightMm: null, marginMm: 0 };

export const sizeOf = ({ paper, roll }: Pick<PrintJob, 'paper' | 'roll'>): SheetSize =>
  paper === 'ticket' && roll === 'receipt' ? RECEIPT : SIZES[paper];

/** Those have one sheet a boot. */
export const ONE_A_BOOT: readonly Paper[] = ['tags', 'inside', 'bench'];
/** These go home with the skier, and speak the skier's language. */
export const FOR_THE_SKIER: readonly Paper[] = ['booking', 'ticket', 'card'];

/** What page and paper say to each other, both of this address. */
export type ToPaper = { readonly fibula: 'paper'; readonly job: PrintJob };
export type FromPaper = { readonly fibula: 'ready' | 'drawn' };

export const isToPaper = (data: unknown): data is ToPaper =>
  typeof data === 'object' && data !== null && (data as { fibula?: unknown }).fibula === 'paper';
export const isFromPaper = (data: unknown): data is FromPaper =>
  typeof data === 'object' &&
  data !== null &&
  ['ready', 'drawn'].includes((data as { fibula?: string }).fibula ?? '');
