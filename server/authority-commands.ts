/** What the operator may ask about the shop's certificate authority: `npm run authority`. */
import { z } from 'zod';
import type { Commands } from './operator.ts';
import type { Site } from './site.ts';

const Asked = z.strictObject({ do: z.literal('authority'), step: z.enum(['prepare', 'switch', 'renew']) });

export const authorityCommands = (site: Site): Commands => ({
  authority: async (asked) => {
    const parsed = Asked.safeParse(asked);
    if (!parsed.success) return { ok: false, text: 'Ask for one of prepare, switch, renew.' };
    try {
      const certificate = await site.changeAuthority(parsed.data.step);
      if (!certificate)
        return { ok: false, text: 'This server runs over plain http and has no certificates.' };
      const { fingerprint, next, authorityEndsMs, uncovered } = certificate;
      return { ok: true, fingerprint, next: next?.fingerprint ?? null, authorityEndsMs, uncovered };
    } catch (error) {
      return { ok: false, text: `The authority could not be changed: ${(error as Error).message}.` };
    }
  },
});
