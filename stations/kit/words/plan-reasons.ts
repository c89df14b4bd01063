/** Loaded by what says why a number is not known: `planText` has the German of those sentences from then on. */
import { teach } from './de/plan.ts';
import { REASONS } from './de/plan/reasons.ts';

teach(REASONS);
