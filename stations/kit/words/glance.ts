/** Words of the board that shows all jobs at a glance. */
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/glance.ts';

const glanceEn = {
  since: (time: string): string => `here for ${time}`,
  blocked: 'blocked:',
};
export const glance: Words<typeof glanceEn> = inLanguage(glanceEn, german.glance);
