/** Why a fact, or the update that carried it, is not taken. A closed list: stations have a sentence for each. */

export const REFUSALS = [
  /** Not a fact of a known kind, or a field is missing, unknown or out of bounds. */
  'shape',
  /** `by.station` is not the device that sent it, or `by.role` not one granted to it. */
  'identity',
  /** The role may not write this kind, or not strike that fact. */
  'permission',
  /** The id is already taken by a different fact. */
  'id-taken',
  /** A session begins with `session.opened`, once. */
  'opening',
  /** What is struck must be there. */
  'unknown-target',
  /** The session holds as many facts as it may. */
  'full',
  /** Personal texts of the session were erased, and this fact says one. */
  'erased',
] as const;

export type RefusalCode = (typeof REFUSALS)[number];

export interface Refusal {
  readonly code: RefusalCode;
  /** Id of the refused fact, where it has one. */
  readonly fact: string | null;
  /** Dotted path of the field at fault, '' for the whole. */
  readonly field: string;
  /** What is wanted, in words. */
  readonly wants: string;
}
