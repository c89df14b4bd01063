/** One skier at the measuring station: which view, what is typed, and what the entries become. */
import { afterPaint } from '../kit/after-paint.ts';
import { SIDES } from '../../core/index.ts';
import type { Mm, NextAction, Side } from '../../core/index.ts';
import { asking } from '../kit/asking.svelte.ts';
import { Draft } from '../kit/drafts.svelte.ts';
import { latest } from '../kit/entries.ts';
import { parseNumber, shown } from '../kit/numbers.ts';
import type { FactDraft, Session } from '../kit/session.ts';
import { measuring, skierSpeech } from '../kit/words/measuring.ts';
import { notTaken } from '../kit/words/refusal.ts';
import { Knees } from './knees.svelte.ts';
import { furtherProblem } from './further.ts';
import { emptyReading, heldConditions, isEmpty, isWhole, ORDER, readingOf, typedAgain } from './reading.ts';
import type { Conditions, GapField, Place } from './reading.ts';

export type View = 'ready' | 'stand' | 'read' | 'result' | 'knees';

/** What the other stations see of it. */
const DOING: Partial<Record<View, { act: string }>> = {
  read: { act: measuring.doing.read },
  knees: { act: measuring.doing.knees },
};

const STANDING_MS = 5 * 60_000;

export class MeasuringJob {
  /** What the skier speaks, as the intake noted it. */
  speaks = $state<string | undefined>();
  readonly session: Session;
  readonly reading: Draft<ReturnType<typeof emptyReading>>;
  readonly conditions: Draft<Conditions>;
  readonly knees: Knees;
  #view = $state<View>('ready');
  #active = $state.raw<GapField>(ORDER[0]!);
  #half = $state(false);
  #problem = $state<string | null>(null);
  /** Length of the list when the boots were sent to the bench; null while they are here. */
  #sentAt = $state<number | null>(null);
  #standingSince = $state<number | null>(null);

  constructor(session: Session) {
    this.session = session;
    this.reading = new Draft(`reading.${session.id}`, emptyReading);
    this.conditions = new Draft(`conditions.${session.id}`, () => this.#held());
    this.knees = new Knees(session, (...drafts) => this.add(...drafts));
    this.#view = this.#firstView();
  }

  get view(): View {
    return this.#view;
  }
  get active(): GapField {
    return this.#active;
  }
  get half(): boolean {
    return this.#half;
  }
  get problem(): string | null {
    return this.#problem;
  }
  get sent(): boolean {
    return this.#sentAt !== null && this.benchSides.length > 0;
  }

  closed(side: Side): boolean {
    const step = this.session.plan.steps.find((s) => s.step === 'cuff' && s.side === side);
    return step?.status === 'done' || step?.status === 'waived';
  }

  /** What a person decided for this cuff, once it is closed. */
  decision(side: Side): 'even' | 'accepted' | 'other-boot' | null {
    if (!this.closed(side)) return null;
    return latest(this.session.facts, 'cuff.closed', (fact) => fact.side === side)?.decision ?? null;
  }

  #sidesWith(fits: (action: NextAction) => boolean): Side[] {
    return SIDES.filter((side) =>
      this.session.plan.next.some((action) => action.side === side && fits(action)),
    );
  }
  /** Legs whose gaps the plan asks for now. */
  get toRead(): Side[] {
    return this.#sidesWith((action) => action.do === 'cuff.read');
  }
  get benchSides(): Side[] {
    return this.#sidesWith((action) => action.role === 'bench' && action.do === 'cuff.set');
  }
  get evenSides(): Side[] {
    return SIDES.filter(
      (side) => !this.closed(side) && this.session.plan.sides[side].cuff.verdict === 'even',
    );
  }
  /** Legs of which one more reading is worth it before they are closed or moved; a press is moved first. */
  get doubtedSides(): Side[] {
    return SIDES.filter((side) => {
      const { verdict, readAgain } = this.session.plan.sides[side].cuff;
      return (verdict === 'even' || verdict === 'uneven') && readAgain !== null && !this.closed(side);
    });
  }
  /** Legs that only a person's decision takes further: accept, rework or another boot. */
  get undecided(): Side[] {
    return SIDES.filter((side) => {
      const asked = this.session.plan.next.some(
        (action) => action.side === side && action.do === 'cuff.closed',
      );
      return asked && this.session.plan.sides[side].cuff.verdict !== 'even';
    });
  }
  get allClosed(): boolean {
    return SIDES.every((side) => this.closed(side));
  }
  /** This job goes on to stance and soles. */
  get full(): boolean {
    return this.session.plan.steps.some((step) => step.step === 'stance');
  }

  /** Legs the fields go through: those asked for, else those not closed. */
  get readSides(): Side[] {
    const asked = this.toRead;
    return asked.length > 0 ? asked : SIDES.filter((side) => !this.closed(side));
  }

  get conditionsComplete(): boolean {
    const { stanceWidth, widest } = this.conditions.value;
    return parseNumber(stanceWidth) !== null && this.readSides.every((side) => widest[side] !== null);
  }

  get wholeSides(): Side[] {
    return SIDES.filter((side) => isWhole(this.reading.value.legs[side]));
  }
  get halfTyped(): boolean {
    return SIDES.some(
      (side) => !isWhole(this.reading.value.legs[side]) && !isEmpty(this.reading.value.legs[side]),
    );
  }

  /** Something is typed here and not entered. */
  get hasDraft(): boolean {
    const { legs } = this.reading.value;
    const typing = SIDES.some((side) => !isEmpty(legs[side]) || this.knees.isTyped(side));
    return typing || JSON.stringify(this.conditions.value) !== JSON.stringify(this.#held());
  }

  tired(nowMs: number): boolean {
    return this.#standingSince !== null && nowMs - this.#standingSince > STANDING_MS;
  }

  go(view: View): void {
    afterPaint(() => this.#turnTo(view));
  }

  #turnTo(view: View): void {
    this.#view = view;
    this.#problem = null;
    if (view === 'read') this.#active = this.#order[0] ?? ORDER[0]!;
    if (view === 'stand' || view === 'read' || view === 'knees') this.#standingSince ??= Date.now();
    else this.#standingSince = null;
    this.session.doing(DOING[view] ?? null);
  }

  /** The words for this skier, and which language they are in. */
  get skier(): ReturnType<typeof skierSpeech> {
    return skierSpeech(this.speaks);
  }

  choose(field: GapField): void {
    this.#active = field;
  }

  toggleHalf(): void {
    this.#half = !this.#half;
  }

  /** A number from the row: entered in the active field, then on to the next. */
  tap(mm: number): void {
    asking.clear();
    const { side, place } = this.#active;
    const leg = this.reading.value.legs[side];
    leg[place] = shown(this.#half ? mm + 0.5 : mm);
    leg[`${place}Touch`] = null;
    this.#half = false;
    this.next();
  }

  /** The leg touches here: the gap is 0, and how hard it touches is said. */
  touch(how: 'graze' | 'press'): void {
    asking.clear();
    const { side, place } = this.#active;
    const leg = this.reading.value.legs[side];
    leg[place] = '0';
    leg[`${place}Touch`] = how;
    this.next();
  }

  /** Typing over a touch takes it back. */
  typed(field: GapField): void {
    const leg = this.reading.value.legs[field.side];
    if (parseNumber(leg[field.place]) !== 0) leg[`${field.place}Touch`] = null;
  }

  /** A person takes a gap from a photo: its marks are kept, and the number stands in the reading to be recorded. */
  takeGap(
    marked: Extract<FactDraft, { kind: 'photo.marked' }>,
    place: Place,
    gap: { readonly value: number; readonly sd: Mm },
  ): boolean {
    const added = this.session.add(marked);
    this.#problem = added.ok ? null : notTaken(added.refusal, added.draft);
    if (!added.ok) return false;
    const leg = this.reading.value.legs[marked.side];
    const text = String(Math.round(gap.value * 10) / 10);
    leg[place] = text;
    leg[`${place}Touch`] = null;
    leg.photo = { ...leg.photo, [place]: { marks: added.facts[0]!.id, text, sdMm: gap.sd } };
    this.reading.keep();
    this.go('read');
    return true;
  }

  erase(): void {
    asking.clear();
    const { side, place } = this.#active;
    const leg = this.reading.value.legs[side];
    leg[place] = '';
    leg[`${place}Touch`] = null;
  }

  next(): void {
    const order = this.#order;
    const here = order.findIndex((f) => f.side === this.#active.side && f.place === this.#active.place);
    const after = order[here + 1];
    if (after) this.#active = after;
  }

  record(): void {
    const wrong = this.wholeSides
      .map((side) => furtherProblem(side, this.reading.value.legs[side].further))
      .find((each) => each !== null);
    this.#problem = wrong ?? null;
    if (wrong) return;
    const drafts = this.wholeSides.map((side) =>
      readingOf(side, this.reading.value.legs[side], this.conditions.value, this.reading.value.posture),
    );
    if (drafts.some((draft) => draft === null)) return this.go('stand');
    if (!this.add(...(drafts as FactDraft[]))) return;
    this.reading.clear();
    this.#sentAt = null;
    this.go('result');
  }

  /** Takes back the last act. The numbers of a reading stand in its fields again, unless others were typed since. */
  undo(): void {
    asking.clear();
    for (const fact of this.session.undo()) {
      if (fact.kind === 'stance.read') this.knees.typeAgain(fact);
      if (fact.kind !== 'cuff.read' || !isEmpty(this.reading.value.legs[fact.side])) continue;
      this.reading.value.legs[fact.side] = typedAgain(fact);
      this.reading.value.posture = { ...fact.posture };
      this.reading.keep();
      if (this.#view === 'result') this.go('read');
    }
  }

  sendToBench(): void {
    this.#sentAt = this.session.facts.length;
    this.session.doing({ act: measuring.doing.sent });
  }

  close(sides: readonly Side[], decision: 'even' | 'accepted' | 'other-boot', note = ''): boolean {
    return this.add(
      ...sides.map((side) => ({
        kind: 'cuff.closed' as const,
        side,
        decision,
        ...(note.trim() ? { note: note.trim() } : {}),
      })),
    );
  }

  /** False when an entry was not taken; the reason stands in `problem`, or its form asks about it. */
  add(...drafts: FactDraft[]): boolean {
    if (!asking.passes(this.session.facts, drafts)) return false;
    const added = this.session.add(...drafts);
    this.#problem = added.ok ? null : notTaken(added.refusal, added.draft);
    return added.ok;
  }

  /** After new entries arrived: conditions that were still empty are held from the last reading. */
  hold(): void {
    const held = this.#held();
    const now = this.conditions.value;
    if (now.stanceWidth === '') now.stanceWidth = held.stanceWidth;
    for (const side of SIDES) now.widest[side] ??= held.widest[side];
  }

  get #order(): readonly GapField[] {
    const sides = this.readSides;
    return ORDER.filter((field) => sides.includes(field.side));
  }

  #held(): Conditions {
    const last = (side: Side) => latest(this.session.facts, 'cuff.read', (fact) => fact.side === side);
    const [left, right] = [last('left'), last('right')];
    return heldConditions({ ...(left ? { left } : {}), ...(right ? { right } : {}) });
  }

  #firstView(): View {
    const { plan } = this.session;
    const typed = SIDES.some((side) => !isEmpty(this.reading.value.legs[side]));
    if (typed) return 'read';
    const asks = (kind: string) => plan.next.some((action) => action.do === kind);
    if (asks('ready.checked') || asks('sole.set') || asks('boot.described') || asks('health.asked'))
      return 'ready';
    if (this.full && this.allClosed) return 'knees';
    return SIDES.some((side) => plan.sides[side].cuff.rounds.length > 0) || this.allClosed
      ? 'result'
      : 'stand';
  }
}
