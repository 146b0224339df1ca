import type { StackView } from "../api/model";
import { workbench } from "./workbench.svelte";

export type Load = { pressure: number } | { speed: number };

/** The stack under the slider's load. One question is on its way at a time; the newest wins. */
class LoadedStack {
  view = $state.raw<StackView>();
  private waiting: { path: string; load: Load } | undefined;
  private asking = false;

  ask(path: string, load: Load): void {
    this.waiting = { path, load };
    if (!this.asking) void this.run();
  }
  drop(): void {
    this.waiting = undefined;
    this.view = undefined;
  }

  private async run(): Promise<void> {
    this.asking = true;
    try {
      while (this.waiting && workbench.job) {
        const { path, load } = this.waiting;
        this.waiting = undefined;
        this.view = await workbench.client.stack(workbench.job.id, path, load);
      }
    } catch {
      this.view = undefined; // the stack is faulty or the server is away: both are said elsewhere
    } finally {
      this.asking = false;
    }
  }
}

export const loadedStack = new LoadedStack();
