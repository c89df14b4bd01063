/**
 * The study that is being taken at this station: kept on the device with every reading, so that a reload or a server
 * that is away costs none, and on the server as soon as it answers.
 */
import { STUDIED, turnsIn } from '../../core/index.ts';
import type { Study, StudyTurn } from '../../core/index.ts';
import { studies } from '../kit/study/studies.ts';
import type { KeptStudy } from '../kit/study/studies.ts';

const KEY = 'fibula.study';
const RETRY_MS = 4_000;

export interface Running {
  readonly id: string;
  readonly study: Study;
}

function kept(): Running | null {
  try {
    const text = localStorage.getItem(KEY);
    return text === null ? null : (JSON.parse(text) as Running);
  } catch {
    return null;
  }
}

export class StudyRun {
  #running = $state.raw<Running | null>(kept());
  #saved = $state(false);
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor() {
    if (this.#running) void this.#send();
  }

  get running(): Running | null {
    return this.#running;
  }
  /** All of it is on the server. */
  get saved(): boolean {
    return this.#saved;
  }
  /** Null once every turn was taken. */
  get turn(): StudyTurn | null {
    const { study } = this.#running ?? {};
    return study ? (turnsIn(study)[study.readings.length] ?? null) : null;
  }
  /** Who read the turn before; null at the first. */
  get before(): StudyTurn | null {
    const { study } = this.#running ?? {};
    return study ? (turnsIn(study)[study.readings.length - 1] ?? null) : null;
  }

  begin(id: string, study: Study): void {
    this.#keep({ id, study });
  }

  /** @param values mm, one for each of what is read in a turn */
  record(values: readonly number[]): void {
    const now = this.#running;
    if (!now || values.length !== STUDIED[now.study.of].reads.length) return;
    this.#keep({ ...now, study: { ...now.study, readings: [...now.study.readings, values] } });
  }

  /** The last reading is taken back and read anew; earlier ones stay as they are. */
  redo(): void {
    const now = this.#running;
    if (now) this.#keep({ ...now, study: { ...now.study, readings: now.study.readings.slice(0, -1) } });
  }

  /** Puts it down here; the server goes on keeping it. False while it has not all of it. */
  leave(): boolean {
    if (!this.#saved) return false;
    localStorage.removeItem(KEY);
    this.#running = null;
    return true;
  }

  close(): void {
    clearTimeout(this.#timer);
  }

  #keep(now: Running): void {
    this.#running = now;
    this.#saved = false;
    localStorage.setItem(KEY, JSON.stringify(now));
    void this.#send();
  }

  async #send(): Promise<void> {
    clearTimeout(this.#timer);
    const sent = this.#running;
    if (!sent) return;
    const answer = await studies.put(sent.id, sent.study);
    if (this.#running !== sent) return;
    // A finished one that the server holds already is what it holds.
    this.#saved = answer.ok || answer.error.code === 'changed';
    if (!this.#saved) this.#timer = setTimeout(() => void this.#send(), RETRY_MS);
  }
}

export const runningOf = ({ id, study }: KeptStudy): Running => ({ id, study });
