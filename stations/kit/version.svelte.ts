/**
 * Which build of the pages runs here: the service worker that keeps it, a newer one that is ready, and what to do
 * when the server speaks another protocol. A page loads itself anew at most once for one pair of versions.
 */
import { PROTOCOL } from '../../core/index.ts';
import { api } from './api.ts';

/**
 * `ready`: a newer build takes over at the next load. `renewing`: the server speaks another protocol, and its pages
 * are being fetched. `page-old`, `server-old`: fetching them did not help. `unsaved`: what waits is only in this page.
 */
export type VersionState = 'same' | 'ready' | 'renewing' | 'page-old' | 'server-old' | 'unsaved';

const TRIED = 'fibula.version-tried';
const AGAIN_MS = 5_000;
/** How long the pages of a new build may take to arrive. */
const FETCH_MS = 30_000;

export class Version {
  #state = $state<VersionState>('same');
  readonly #isKept: () => Promise<boolean>;
  #again: ReturnType<typeof setTimeout> | undefined;
  /** A newer build is on this device; it may arrive while another trouble is being told. */
  #isNewer = false;

  /** `isKept`: once all writes have ended, whether everything that waits here outlives the page. */
  constructor(isKept: () => Promise<boolean>) {
    this.#isKept = isKept;
    // Over plain http on this machine alone a browser would allow it: there it would only hide what was just built.
    if (location.protocol === 'https:') void register(() => this.#onNewBuild());
  }

  get state(): VersionState {
    return this.#state;
  }

  /** Server and page understand each other. */
  agrees(): void {
    clearTimeout(this.#again);
    sessionStorage.removeItem(TRIED);
    this.#state = this.#isNewer ? 'ready' : 'same';
  }

  /** Asks for a newer build; a station that is never reloaded would not hear of it. */
  async look(): Promise<void> {
    const registration = await navigator.serviceWorker?.getRegistration();
    await registration?.update().catch(() => undefined); // asked again another time
  }

  /** The server speaks another protocol: this page makes room for the server's own, once. */
  async renew(): Promise<void> {
    if (this.#state === 'renewing' || this.#state === 'page-old' || this.#state === 'server-old') return;
    this.#state = 'renewing';
    const answer = await api.protocol();
    if (!answer.ok) {
      this.#again = setTimeout(() => {
        this.#state = 'same';
        void this.renew();
      }, AGAIN_MS);
      return;
    }
    const step = `${PROTOCOL}>${answer.value.protocol}`;
    if (sessionStorage.getItem(TRIED) === step) {
      this.#state = answer.value.protocol > PROTOCOL ? 'page-old' : 'server-old';
      return;
    }
    await fetchNewBuild();
    if (!(await this.#isKept()) || !remember(step)) {
      this.#state = 'unsaved';
      return;
    }
    location.reload();
  }

  close(): void {
    clearTimeout(this.#again);
  }

  #onNewBuild(): void {
    this.#isNewer = true;
    if (this.#state === 'same') this.#state = 'ready';
  }
}

/** Without this note the page could load itself for ever. */
function remember(step: string): boolean {
  try {
    sessionStorage.setItem(TRIED, step);
    return true;
  } catch {
    return false;
  }
}

async function register(onNewBuild: () => void): Promise<void> {
  try {
    const registration = await navigator.serviceWorker.register('/sw.js');
    registration.addEventListener('updatefound', () => {
      const { active, installing } = registration;
      if (!active || !installing) return; // the first one: there is no older build
      installing.addEventListener('statechange', () => installing.state === 'activated' && onNewBuild());
    });
  } catch {
    // A browser without service workers, or one that does not trust the certificate: a reload needs the server.
  }
}

/** Resolves when the server's build is the one that the next load gets, or when there is no newer one. */
async function fetchNewBuild(): Promise<void> {
  const registration = await navigator.serviceWorker?.getRegistration();
  if (!registration) return;
  await registration.update().catch(() => undefined);
  const worker = registration.installing ?? registration.waiting;
  if (!worker) return;
  await new Promise<void>((resolve) => {
    const timer = setTimeout(resolve, FETCH_MS);
    const look = () => {
      if (worker.state !== 'activated' && worker.state !== 'redundant') return;
      clearTimeout(timer);
      resolve();
    };
    worker.addEventListener('statechange', look);
    look();
  });
}
