/** Who this station is, kept on the device, so that a page that is loaded without a connection still knows. */
import type { Me } from './api.ts';

const KEY = 'fibula.me';
/** The device id alone outlives an unpairing: pairing anew gives it back. */
const DEVICE = 'fibula.device';

export function keepMe(me: Me): void {
  try {
    localStorage.setItem(DEVICE, me.device);
    localStorage.setItem(KEY, JSON.stringify(me));
  } catch {
    // A device without room says so where entries are kept.
  }
}

export function keptMe(): Me | null {
  try {
    const me = JSON.parse(localStorage.getItem(KEY) ?? 'null') as Me | null;
    return typeof me?.device === 'string' && Array.isArray(me.roles) ? me : null;
  } catch {
    return null;
  }
}

export const forgetMe = (): void => localStorage.removeItem(KEY);

export const keptDevice = (): string | null => localStorage.getItem(DEVICE);
