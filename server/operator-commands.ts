/** What the operator may do without being a station: codes, the corner's PIN, backups, exports, erasures. */
import type { Logger } from 'pino';
import { z } from 'zod';
import { STATION_ROLES } from '../core/index.ts';
import type { Corner } from './corner.ts';
import type { Health } from './health.ts';
import type { Keeper } from './keeper.ts';
import type { Commands } from './operator.ts';
import type { Stations } from './pair.ts';
import { TROUBLE_TEXT } from './trouble.ts';

export interface StationCommandDeps {
  readonly stations: Stations;
  readonly corner: Corner;
  readonly health: Health;
  readonly log: Logger;
}

const Code = z.strictObject({ do: z.literal('code'), roles: z.array(z.enum(STATION_ROLES)).min(1) });

export function stationCommands({ stations, corner, health, log }: StationCommandDeps): Commands {
  const attempt = (write: () => object): object =>
    health.attempt(write, () => ({ ok: false, text: TROUBLE_TEXT[health.readOnly ?? 'failing'] }));
  return {
    code: (asked) => {
      const parsed = Code.safeParse(asked);
      if (!parsed.success) return { ok: false, text: `Roles are ${STATION_ROLES.join(', ')}.` };
      return attempt(() => {
        const code = stations.createCode([...new Set(parsed.data.roles)]);
        return code
          ? { ok: true, ...code }
          : { ok: false, text: 'Too many codes are waiting to be used; wait until some expire.' };
      });
    },
    pin: () =>
      attempt(() => {
        const was = corner.pinSet;
        corner.reset();
        log.warn('corner PIN forgotten by the operator');
        return { ok: true, was };
      }),
  };
}

const Backup = z.strictObject({ do: z.literal('backup'), file: z.string().min(1) });
const Client = z.strictObject({
  do: z.enum(['export', 'erase']),
  ref: z.string(),
  backups: z.boolean().optional(),
});

export const keepingCommands = (keeper: Keeper): Commands => ({
  backup: async (asked) => ({ ok: true, examined: await keeper.backup(Backup.parse(asked).file) }),
  export: (asked) => ({ ok: true, file: keeper.export(Client.parse(asked).ref) }),
  erase: async (asked) => {
    const { ref, backups } = Client.parse(asked);
    return { ok: true, erased: await keeper.erase(ref, backups ?? false) };
  },
});
