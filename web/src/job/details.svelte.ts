import type { ResultDocument } from "../api/model";
import { workbench } from "./workbench.svelte";

const REST = 400; // the hand has stopped [ms]
const LATER = 1000; // while nobody looks yet [ms]

/**
 * What of a result is read when the hand rests and is not computed at each keystroke: lift over pressure of each stack,
 * and what each of its discs matters. It is asked for a moment after the last change, and again only while it is looked at.
 */
class Details {
  private result = $state.raw<ResultDocument>();
  private job = $state.raw("");
  private state = ""; // of the job, that `result` is of

  /** The last one asked for of this job. */
  of(job: string | undefined): ResultDocument | undefined {
    return this.job === job ? this.result : undefined;
  }

  /** Asks for the job as it stands in this state; what comes back gives up asking. */
  ask(job: string, state: string, looked: boolean): () => void {
    const isFirst = this.job !== job;
    if (!isFirst && (this.state === state || !looked)) return () => {};
    let wanted = true;
    const timer = setTimeout(
      () =>
        workbench.client.result(job).then(
          (result) => {
            if (wanted) [this.job, this.state, this.result] = [job, state, result];
          },
          () => {}, // faulty or away: both are said elsewhere
        ),
      looked ? (isFirst ? 0 : REST) : LATER,
    );
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }
}

export const details = new Details();
