import type { Edit } from "../../api/model";
import type { StackEntry } from "./entries";
import { foreseen, wordsOf } from "./foreseen";

/** One step of the user: the list as it will be, the entry then selected, and the words for it. */
export interface Ahead {
  readonly entries: readonly StackEntry[];
  readonly words: string; // what the answer is known by
  readonly select: number | null;
  readonly said: string;
}

/** What is in hand and what is said, once a step has its answer. */
type Settle = (select: number | null, said: string) => void;

const PATIENCE = 60; // an answer brings list and picture in one; when it takes longer, the list goes ahead of it [ms]
const GIVEN_UP = 1500; // without an answer what is written counts [ms]

/**
 * The steps that have no answer yet. The next step goes on from the last of them, so that a hand need not wait; the list is
 * drawn ahead of its picture only when the answer takes longer than the eye waits.
 */
export class Pending {
  /** The list that is drawn ahead of its answer; null: what the server said last is drawn. */
  shown = $state.raw<Ahead | null>(null);
  private steps: readonly Ahead[] = [];
  private timers: ReturnType<typeof setTimeout>[] = [];

  constructor(private readonly settle: Settle) {}

  /** What the next step goes on from; undefined: nothing is on its way. */
  get last(): Ahead | undefined {
    return this.steps.at(-1);
  }

  /** Takes a step from `entries`. `atOnce`: the hand has written it and sees it already, so it must not go back for a moment. */
  take(entries: readonly StackEntry[], list: string, edits: readonly Edit[], select: number | null, said: string, atOnce: boolean): void {
    const next = foreseen(this.last?.entries ?? entries, list, edits);
    this.wait([...this.steps, { entries: next, words: wordsOf(next), select, said }]);
    if (atOnce || this.shown) this.shown = this.last ?? null;
  }

  /** Another list has come from the server. */
  answered(words: string): void {
    const come = this.steps.map((step) => step.words).lastIndexOf(words);
    const step = this.steps[come] ?? this.last;
    if (step) this.settle(step.select, step.said);
    this.wait(come < 0 ? [] : this.steps.slice(come + 1)); // not foreseen: another hand was at work too
    if (this.shown) this.shown = this.last ?? null;
  }

  /** The user has meanwhile selected another entry. */
  choose(select: number | null): void {
    this.steps = this.steps.map((step) => ({ ...step, select }));
    if (this.shown) this.shown = { ...this.shown, select };
  }

  end(): void {
    this.timers.forEach(clearTimeout);
    this.timers = [];
  }

  private wait(steps: readonly Ahead[]): void {
    this.end();
    this.steps = steps;
    if (steps.length === 0) return;
    this.timers = [setTimeout(() => (this.shown = this.last ?? null), PATIENCE), setTimeout(() => this.giveUp(), GIVEN_UP)];
  }

  private giveUp(): void {
    if (this.shown) this.settle(this.shown.select, this.shown.said);
    this.steps = [];
    this.shown = null;
  }
}
