import type { Client } from "../api/client";
import type { Bend, ResultDocument, StackView } from "../api/model";

const same = (a: Bend | undefined, b: Bend): boolean =>
  a !== undefined && a.path === b.path && a.speed === b.speed && a.pressure === b.pressure;

/**
 * The stack under the slider's load. While one is shown, each request for a new state brings its bent shape along, so that
 * it is drawn together with its curves; only what the slider does, or another stack, is asked for by itself: one question
 * at a time, the newest wins.
 */
export class LoadedStack {
  view = $state.raw<StackView>();
  /** What is shown: to be asked for with every new state. */
  wanted: Bend | undefined;
  private of: { readonly result: ResultDocument; readonly bend: Bend } | undefined; // that `view` is of
  private waiting: { readonly job: string; readonly result: ResultDocument; readonly bend: Bend } | undefined;
  private asking = false;

  constructor(private readonly client: Client) {}

  /** Shows this stack of the result on the page. Of a trial the server keeps nothing that could be asked for. */
  show(job: string, result: ResultDocument, bend: Bend, tried: boolean): void {
    this.wanted = bend;
    if (this.of?.result === result && same(this.of.bend, bend)) return;
    this.waiting = tried ? undefined : { job, result, bend };
    if (tried) this.view = undefined;
    else if (!this.asking) void this.run();
  }

  /** It came with a new state. */
  take(view: StackView | undefined, result: ResultDocument | undefined, bend: Bend | undefined): void {
    if (!view || !result || !bend || !same(this.wanted, bend)) return;
    this.waiting = undefined;
    this.of = { result, bend };
    this.view = view;
  }

  drop(): void {
    this.wanted = undefined;
    this.waiting = undefined;
    this.of = undefined;
    this.view = undefined;
  }

  private isWaiting(result: ResultDocument, bend: Bend): boolean {
    return this.waiting?.result === result && same(this.waiting.bend, bend);
  }

  private async run(): Promise<void> {
    this.asking = true;
    while (this.waiting) {
      const { job, result, bend } = this.waiting;
      try {
        const view = await this.client.stack(job, bend);
        if (!this.isWaiting(result, bend)) continue; // overtaken on the way
        this.take(view, result, bend);
      } catch {
        if (!this.isWaiting(result, bend)) continue;
        this.waiting = undefined; // the stack is faulty or the server is away: both are said elsewhere
        this.of = undefined;
        this.view = undefined;
      }
    }
    this.asking = false;
  }
}
