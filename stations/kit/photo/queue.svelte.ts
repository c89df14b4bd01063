/** Photos that are not on the server yet: kept on this device until they are, and no longer. */
import type { DeviceStore } from '../store/device.ts';
import { done } from '../store/device.ts';
import { noInWords } from '../no.ts';
import type { TakenPhoto } from './take.ts';

interface Waiting {
  readonly session: string;
  readonly sha256: string;
  readonly bytes: ArrayBuffer;
  /** Taken back: the server is still to be asked to erase it. Nothing of the picture is kept. */
  readonly goes?: true;
}

const RETRY_MS = 10_000;
/** A photo takes its time over a bad connection, and not for ever. */
const PATIENCE_MS = 60_000;

const keyOf = (session: string, sha256: string): string => `${session}/${sha256}`;

export class PhotoQueue {
  readonly #device: DeviceStore;
  /** By session and hash: what to show while the server cannot. */
  #waiting = $state.raw<ReadonlyMap<string, string>>(new Map());
  /** The server's own sentence where it will not take a photo. */
  #refused = $state.raw<ReadonlyMap<string, string>>(new Map());
  #timer: ReturnType<typeof setInterval> | undefined;
  #sending: Promise<void> | null = null;
  readonly #wake = () => void this.send();

  constructor(device: DeviceStore) {
    this.#device = device;
  }

  /** Looks for what waits from before, and sends it, now and then again. */
  start(): void {
    addEventListener('online', this.#wake);
    this.#timer = setInterval(this.#wake, RETRY_MS);
    void this.send();
  }

  close(): void {
    removeEventListener('online', this.#wake);
    clearInterval(this.#timer);
    for (const url of this.#waiting.values()) URL.revokeObjectURL(url);
  }

  isWaiting(session: string, sha256: string): boolean {
    return this.#waiting.has(keyOf(session, sha256));
  }

  refusal(session: string, sha256: string): string | null {
    return this.#refused.get(keyOf(session, sha256)) ?? null;
  }

  /** Where the picture is to be had: on this device while it waits, else at the server. */
  urlOf(session: string, sha256: string): string {
    return this.#waiting.get(keyOf(session, sha256)) ?? `/api/sessions/${session}/photos/${sha256}`;
  }

  /** Resolves when this device has it for sure. Rejects when it has no room. */
  async add(session: string, { sha256, bytes }: TakenPhoto): Promise<void> {
    const row: Waiting = { session, sha256, bytes: bytes.buffer };
    await this.#device.write('photos', (store) => store.put(row));
    this.#show(row);
    void this.send();
  }

  /**
   * Takes a photo back: from this device at once, from the server as soon as it can be asked. False where this device
   * cannot keep that in mind and the server cannot be asked now.
   */
  async remove(session: string, sha256: string): Promise<boolean> {
    const row: Waiting = { session, sha256, bytes: new ArrayBuffer(0), goes: true };
    const noted = await this.#device
      .write('photos', (store) => store.put(row))
      .then(
        () => true,
        () => false,
      );
    this.#hide(keyOf(session, sha256));
    if (!noted) return this.#erase(session, sha256);
    // One that is on its way up goes after it has arrived.
    void Promise.resolve(this.#sending).then(() => this.send());
    return true;
  }

  /** Whether it is not at the server any more. */
  async #erase(session: string, sha256: string): Promise<boolean> {
    const answer = await fetch(`/api/sessions/${session}/photos/${sha256}`, {
      method: 'DELETE',
      signal: AbortSignal.timeout(PATIENCE_MS),
    }).catch(() => null);
    return answer !== null && (answer.ok || answer.status === 404 || answer.status === 410);
  }

  /** One after the other, oldest key first. Never rejects. */
  send(): Promise<void> {
    this.#sending ??= this.#sendAll()
      .catch(() => undefined)
      .finally(() => (this.#sending = null));
    return this.#sending;
  }

  async #sendAll(): Promise<void> {
    const rows = await this.#device.read('photos', (store) => done(store.getAll() as IDBRequest<Waiting[]>));
    for (const row of rows) if (!row.goes) this.#show(row);
    for (const { session, sha256, bytes, goes } of rows) {
      if (goes) {
        if (await this.#erase(session, sha256)) await this.#drop(session, sha256, true);
        continue;
      }
      const answer = await fetch(`/api/sessions/${session}/photos`, {
        method: 'POST',
        body: bytes,
        signal: AbortSignal.timeout(PATIENCE_MS),
      }).catch(() => null);
      if (answer === null) return; // the server is away: all of them wait
      // Erased meanwhile: nobody may keep it. Anything else that is refused stays, with the reason.
      if (answer.ok || answer.status === 410) await this.#drop(session, sha256);
      else await this.#say(keyOf(session, sha256), answer);
    }
  }

  async #say(key: string, answer: Response): Promise<void> {
    const said = (await answer.json().catch(() => null)) as {
      error?: { code?: string; text?: string };
    } | null;
    const { code = 'failed', text = '' } = said?.error ?? {};
    const words = await noInWords({ code, text }, text);
    this.#refused = new Map([...this.#refused, [key, words]]);
  }

  #show({ session, sha256, bytes }: Waiting): void {
    const key = keyOf(session, sha256);
    if (this.#waiting.has(key)) return;
    const url = URL.createObjectURL(new Blob([bytes], { type: 'image/jpeg' }));
    this.#waiting = new Map([...this.#waiting, [key, url]]);
  }

  /** Forgets a photo, unless it was taken back meanwhile and is still to go from the server. */
  async #drop(session: string, sha256: string, gone = false): Promise<void> {
    await this.#device.write('photos', (store) => {
      const there = store.get([session, sha256]) as IDBRequest<Waiting | undefined>;
      there.onsuccess = () => {
        if (gone || !there.result?.goes) store.delete([session, sha256]);
      };
    });
    this.#hide(keyOf(session, sha256));
  }

  #hide(key: string): void {
    this.#waiting = new Map([...this.#waiting].filter(([one]) => one !== key));
    this.#refused = new Map([...this.#refused].filter(([one]) => one !== key));
  }
}
