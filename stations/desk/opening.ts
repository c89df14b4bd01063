/** Open doors and hands, as the server tells them (`docs/protocol.md`). */
import type { FloorRole } from '../../core/index.ts';

export interface Opening {
  readonly hands: Readonly<Record<FloorRole, number>>;
  /** Monday to Sunday; null: closed. */
  readonly days: readonly ({ readonly from: string; readonly to: string } | null)[];
}
