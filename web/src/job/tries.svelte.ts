import type { Client } from "../api/client";
import { GivenUp, NoAnswer } from "../api/faults";
import type { Draft, Edit, ResultDocument } from "../api/model";
import { tick } from "svelte";
import { markEdit, measureDrawn } from "./latency";
import type { LoadedStack } from "./load.svelte";
import { keyOf } from "./tab";

/**
 * What would be, while a finger drags or types: computed and not kept. One question is on its way, the newest wins. A value
 * that is tried lies on the shelf until it is kept or given up: if the page ends before, it is used again.
 */
export class Tries {
  preview = $state.raw<ResultDocument>();
  /** What of it cannot be read, with the reason. */
  drafts = $state.raw<readonly Draft[]>([]);
  private waiting: readonly Edit[] | undefined;
  private asked: AbortController | undefined;
  private over = true;

  constructor(
    private readonly client: Client,
    private readonly loaded: LoadedStack,
    private readonly onOutcome: () => void,
    private readonly onSilence: (fault: NoAnswer) => void,
  ) {}

  /** Null ends it: nothing is tried any more. */
  wish(job: string, edits: readonly Edit[] | null): void {
    if (edits === null) {
      this.end(job);
      this.clear();
      return;
    }
    if (edits.every((edit) => "set" in edit)) localStorage.setItem(keyOf("tried", job), JSON.stringify(edits));
    markEdit();
    this.over = false;
    this.waiting = edits;
    if (!this.asked) void this.run(job);
  }

  /** What was tried is being kept: the picture stays until the answer to that comes. */
  end(job: string): void {
    localStorage.removeItem(keyOf("tried", job));
    this.over = true;
    this.waiting = undefined;
    this.asked?.abort();
  }

  /** Nothing is tried any more, or its answer has come. */
  clear(): void {
    this.preview = undefined;
    this.drafts = [];
  }

  private async run(job: string): Promise<void> {
    while (this.waiting) {
      const edits = this.waiting;
      this.waiting = undefined;
      this.asked = new AbortController();
      try {
        const bend = this.loaded.wanted;
        const trial = await this.client.try(job, edits, this.asked.signal, bend);
        if (this.over) continue;
        this.loaded.take(trial.stack_view, trial.result, bend);
        this.preview = trial.result;
        this.onOutcome();
        this.drafts = trial.drafts;
        void tick().then(measureDrawn);
      } catch (fault) {
        if (fault instanceof GivenUp) continue;
        this.clear();
        if (fault instanceof NoAnswer) this.onSilence(fault);
      }
    }
    this.asked = undefined;
  }
}
