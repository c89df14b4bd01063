/** Loaded by what shows problems and cautions: `planText` has the German of those sentences from then on. */
import { teach } from './de/plan.ts';
import { CAUTIONS } from './de/plan/cautions.ts';
import { PROBLEMS } from './de/plan/problems.ts';
import { PROVENANCE } from './de/plan/provenance.ts';

teach([...CAUTIONS, ...PROBLEMS, ...PROVENANCE]);
