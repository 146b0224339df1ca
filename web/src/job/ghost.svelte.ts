import type { PlotSpec, ResultDocument } from "../api/model";
import { workbench } from "./workbench.svelte";

/** Another build behind the present one: another job of the folder, or this job as it was. */
class Ghost {
  name = $state("");
  result = $state.raw<ResultDocument>();
  /** What is chosen: "" nothing, "job ID", "revision N". */
  choice = $state("");

  async choose(choice: string): Promise<void> {
    this.choice = choice;
    if (choice === "") {
      this.result = undefined;
      return;
    }
    const [what = "", which = ""] = choice.split(" ");
    const job = workbench.job;
    if (!job) return;
    const result = what === "job" ? await workbench.client.result(which) : await workbench.client.result(job.id, Number(which));
    if (this.choice !== choice) return; // the hand has gone on
    this.result = result;
    this.name = what === "job" ? result.header.title : `step ${which}`;
  }

  unit(index: number) {
    return this.result?.units[index];
  }

  /** The same plot of that build's unit, to stand behind this one. */
  of(plot: PlotSpec, unit: number): { name: string; plot: PlotSpec } | undefined {
    return this.behind(this.unit(unit)?.plots.find((one) => one.id === plot.id));
  }

  /** A plot of that build under its name. */
  behind(plot: PlotSpec | undefined): { name: string; plot: PlotSpec } | undefined {
    return plot && { name: this.name, plot };
  }
}

export const ghost = new Ghost();
