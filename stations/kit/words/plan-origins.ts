/** Loaded with the shop's settings: `planText` has the German of where their defaults come from from then on. */
import { teach } from './de/plan.ts';
import { ORIGINS } from './de/plan/origins.ts';

teach(ORIGINS);
