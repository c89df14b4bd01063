import { benchActs } from '../kit/words/bench.ts';

/** In a few words, what a boot waits for; the kind of entry itself where this program knows no words. */
export const actWord = (kind: string): string => (benchActs as Record<string, string>)[kind] ?? kind;
