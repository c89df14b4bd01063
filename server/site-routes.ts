/** What the desk is told of the server's address and certificates. */
import type { Hono } from 'hono';
import { need } from './asker.ts';
import type { AskerDeps } from './asker.ts';
import type { Env } from './env.ts';
import type { Site } from './site.ts';

export function siteRoutes(app: Hono<Env>, deps: AskerDeps & { readonly site: Site }): void {
  app.get('/api/site', (c) => {
    need(deps, c, ['desk']);
    const { site } = deps;
    const { certificate } = site;
    return c.json({
      address: site.address,
      byName: site.byName(),
      certificate: certificate && {
        fingerprint: certificate.fingerprint,
        madeAt: new Date(certificate.madeMs).toISOString(),
        renewsAt: new Date(certificate.renewMs).toISOString(),
        endsAt: new Date(certificate.endsMs).toISOString(),
        authorityEndsAt: new Date(certificate.authorityEndsMs).toISOString(),
        nextFingerprint: certificate.next?.fingerprint ?? null,
        uncovered: certificate.uncovered,
      },
      notices: site.notices(),
    });
  });
}
