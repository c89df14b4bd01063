/**
 * One tab of a browser owns the device's store: two would each send what waits there. The others only show, and one
 * of them takes over when the owner is closed. By a Web Lock; where there are none, over plain http, by a lease.
 */
import type { DeviceStore } from './device.ts';

/** `asking`: not known yet, for a moment at most. */
export type Ownership = 'asking' | 'owner' | 'second';

const NAME = 'fibula-store';
/** After a reload the page before may hold on for a moment; nobody need be told. */
const GRACE_MS = 600;

type Tell = (ownership: Ownership) => void;

/** Tells who owns the store as often as that changes. @returns what gives it up. */
export function ownStore(device: DeviceStore, tell: Tell): () => void {
  // Missing over plain http, whatever the types say.
  const locks = (navigator as { locks?: LockManager }).locks;
  return locks ? byLock(locks, tell) : byLease(device, tell);
}

function byLock(locks: LockManager, tell: Tell): () => void {
  const stopped = new AbortController();
  let release = () => undefined as void;
  const held = new Promise<void>((resolve) => {
    release = resolve;
  });
  const grace = setTimeout(() => tell('second'), GRACE_MS);
  const hold = () => {
    clearTimeout(grace);
    if (!stopped.signal.aborted) tell('owner');
    return held;
  };
  locks.request(NAME, { signal: stopped.signal }, hold).catch((error: unknown) => {
    clearTimeout(grace);
    if (!stopped.signal.aborted) throw error;
  });
  return () => {
    clearTimeout(grace);
    stopped.abort();
    release();
  };
}

/** The owner counts its beats; who sees no new one for long, by its own steady clock, takes the store over. */
interface Lease {
  readonly name: string;
  readonly tab: string;
  readonly beat: number;
}

const BEAT_MS = 1_000;
/** A browser may slow the timers of a hidden tab down to one a second or fewer. */
const LOST_MS = 6_000;
const TAB = 'fibula.tab';

/**
 * A reload keeps its tab's name, so that it need not wait for its own lease to end; a tab that was duplicated does
 * not share it, since the name is put back only when the page goes.
 */
function tabName(): string {
  const name = sessionStorage.getItem(TAB) ?? crypto.getRandomValues(new Uint32Array(2)).join('-');
  sessionStorage.removeItem(TAB);
  addEventListener('pagehide', () => sessionStorage.setItem(TAB, name));
  addEventListener('pageshow', () => sessionStorage.removeItem(TAB));
  return name;
}

function byLease(device: DeviceStore, tell: Tell): () => void {
  const tab = tabName();
  let now: Ownership = 'asking';
  let seen: { readonly beat: string; readonly sinceMs: number } | null = null;
  let ended = false;
  const say = (next: Ownership) => {
    if (next !== now && !ended) tell((now = next));
  };

  /** One look: takes or renews the lease where that may be. */
  const look = async () => {
    let mine = false;
    await device.write(
      'tab',
      (store) => {
        const get = store.get(NAME) as IDBRequest<Lease | undefined>;
        get.onsuccess = () => {
          const lease = get.result;
          const beat = lease ? `${lease.tab} ${lease.beat}` : '';
          if (seen?.beat !== beat) seen = { beat, sinceMs: performance.now() };
          mine = !lease || lease.tab === tab || performance.now() - seen.sinceMs > LOST_MS;
          if (mine && !ended) store.put({ name: NAME, tab, beat: (lease?.beat ?? 0) + 1 } satisfies Lease);
        };
      },
      'relaxed',
    );
    say(mine ? 'owner' : 'second');
  };
  const run = () => look().catch(() => say('owner')); // without a store there is nothing to own, and the health says so
  void run();
  const timer = setInterval(() => void run(), BEAT_MS);
  return () => {
    ended = true;
    clearInterval(timer);
    if (now !== 'owner') return;
    device.write('tab', (store) => store.delete(NAME), 'relaxed').catch(() => undefined);
  };
}
