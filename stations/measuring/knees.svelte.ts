/** The knees of one skier: what is typed, what lies under each boot, and what the entries become. */
import { SIDES } from '../../core/index.ts';
import type { FactOf, Side, Step, StepName } from '../../core/index.ts';
import { Draft } from '../kit/drafts.svelte.ts';
import { latest } from '../kit/entries.ts';
import { emptyKnee, heldStance, kneeReading, typedKnee, withoutWedge } from '../kit/knee.ts';
import type { KneeDraft, KneeStance } from '../kit/knee.ts';
import { parseNumber } from '../kit/numbers.ts';
import type { FactDraft, Session } from '../kit/session.ts';
import { proposedCant } from '../kit/words/stance.ts';

interface KneesDraft {
  legs: Record<Side, KneeDraft>;
  stance: KneeStance;
  /** A person has looked at how the skier stands. */
  seen: boolean;
}

export class Knees {
  readonly session: Session;
  readonly draft: Draft<KneesDraft>;
  readonly add: (...drafts: FactDraft[]) => boolean;

  constructor(session: Session, add: (...drafts: FactDraft[]) => boolean) {
    this.session = session;
    this.add = add;
    this.draft = new Draft(`knees.${session.id}`, () => this.#empty());
  }

  #last(side: Side) {
    return latest(this.session.facts, 'stance.read', (fact) => fact.side === side);
  }

  #empty(): KneesDraft {
    const { facts } = this.session;
    return {
      legs: { left: emptyKnee(this.#last('left')), right: emptyKnee(this.#last('right')) },
      // How wide the skier stands and which mark is used belong to the skier, not to a leg.
      stance: heldStance(latest(facts, 'stance.read'), latest(facts, 'cuff.read')),
      seen: false,
    };
  }

  /** What was still empty is held from readings that have come since. */
  hold(): void {
    const held = this.#empty();
    const now = this.draft.value;
    if (now.stance.width === '') now.stance.width = held.stance.width;
    now.stance.mark ??= held.stance.mark;
    for (const side of SIDES)
      if (now.legs[side].height === '') now.legs[side].height = held.legs[side].height;
  }

  get stanceComplete(): boolean {
    const { width, mark } = this.draft.value.stance;
    return parseNumber(width) !== null && mark !== null;
  }

  get floor() {
    return latest(this.session.facts, 'floor.checked');
  }

  isTyped(side: Side): boolean {
    const { offset, toward } = this.draft.value.legs[side];
    return offset.trim() !== '' || toward !== null;
  }

  step(name: StepName, side: Side): Step | undefined {
    return this.session.plan.steps.find((each) => each.step === name && each.side === side);
  }

  /** The cant that was chosen and still stands. */
  chosen(side: Side) {
    if (this.step('cant', side)?.status !== 'done') return undefined;
    return latest(this.session.facts, 'cant.chosen', (fact) => fact.side === side);
  }

  get allChosen(): boolean {
    return SIDES.every((side) => this.chosen(side));
  }

  /** The readings carry a choice now. */
  mayChoose(side: Side): boolean {
    const status = this.step('cant', side)?.status;
    return this.step('stance', side)?.status === 'done' && (status === 'ready' || status === 'stale');
  }

  reading(side: Side): FactDraft | null {
    const { legs, stance } = this.draft.value;
    return kneeReading(side, legs[side], stance);
  }

  record(side: Side): void {
    const reading = this.reading(side);
    if (!reading || !this.add(reading)) return;
    this.draft.value.legs[side] = emptyKnee(this.#last(side));
  }

  /** A reading that was taken back stands in its fields again, unless another one is being typed. */
  typeAgain(fact: FactOf<'stance.read'>): void {
    if (this.draft.value.legs[fact.side].offset === '') this.draft.value.legs[fact.side] = typedKnee(fact);
  }

  putWedge(side: Side, cantDeg: number): boolean {
    return cantDeg === 0
      ? this.add(withoutWedge(this.session.facts, side))
      : this.add({ kind: 'sole.set', side, cantDeg, state: 'test-wedge' } as FactDraft);
  }

  proposed(side: Side): number {
    return proposedCant(this.session.plan.sides[side].stance);
  }

  choose(side: Side, cantDeg: number, method: 'plate' | 'plane', override = ''): boolean {
    return this.add({
      kind: 'cant.chosen',
      side,
      cantDeg,
      method,
      ...(override.trim() ? { override: override.trim() } : {}),
    } as FactDraft);
  }

  levelFloor(crossDeg: number, alongDeg: number): boolean {
    return this.add({ kind: 'floor.checked', crossDeg, alongDeg } as FactDraft);
  }
}
