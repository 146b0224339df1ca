import { Refusal } from "../api/faults";
import type { BenchDocument, RunProgress } from "../api/model";
import { workbench } from "./workbench.svelte";

/** A run that the server knows, from its start on to the end of the server: the page may be loaded again meanwhile. */
interface Run {
  readonly run: string;
  readonly job: string;
  readonly revision: number;
  /** Which start of the server: another one knows nothing of the run. */
  readonly start: string;
}

const shelf = "shimwright.bench";

/** Long work: the damper on the bench. It streams how far it is and can be stopped; the page goes on meanwhile. */
class BenchWork {
  document = $state.raw<BenchDocument>();
  progress = $state.raw<RunProgress | null>(null);
  /** How the last run ended, when not with its result. */
  note = $state("");
  /** The revision that `document` is of. */
  revision = $state(0);
  /** The job that it is of. */
  job = $state("");
  private run = "";
  private events: EventSource | undefined;

  async start(): Promise<void> {
    const job = workbench.job;
    if (!job || this.progress) return;
    this.progress = { done: 0, next: "" };
    this.note = "";
    try {
      const { run } = await workbench.client.bench(job.id);
      const begun: Run = { run, job: job.id, revision: job.result_revision, start: workbench.session?.token ?? "" };
      sessionStorage.setItem(shelf, JSON.stringify(begun));
      this.follow(begun);
    } catch (fault) {
      this.end(fault instanceof Refusal ? `${fault.message} ${fault.remedy}` : "The program does not answer.");
    }
  }

  /** After the page was loaded again: the run that it had, its end or how far it is. */
  takeUp(): void {
    const kept = sessionStorage.getItem(shelf);
    if (kept === null || this.run !== "" || this.progress) return;
    const run = JSON.parse(kept) as Run;
    if (run.job !== workbench.job?.id || run.start !== workbench.session?.token) return;
    this.progress = { done: 0, next: "" };
    this.follow(run);
  }

  private follow(of: Run): void {
    const { run, job, revision } = of;
    this.run = run;
    this.watch(of);
    if (document.visibilityState !== "visible") return;
    const events = workbench.client.runEvents(run);
    this.events = events;
    const on = (name: string, hear: (data: string) => void): void =>
      events.addEventListener(name, (event) => hear((event as MessageEvent<string>).data));
    on("progress", (data) => (this.progress = JSON.parse(data) as RunProgress));
    const take = (data: string, note: string): void => {
      this.document = JSON.parse(data) as BenchDocument;
      this.revision = revision;
      this.job = job;
      this.end(note);
    };
    on("result", (data) => take(data, ""));
    on("stopped", (data) => take(data, "Stopped. The finished runs are below."));
    on("failed", (data) => this.end(failure(data)));
    events.onerror = () => {
      // the stream ends with the run; before that it is the program that went away
      if (this.progress && events.readyState === EventSource.CLOSED) this.end("The program ended before the run was finished.");
    };
  }

  /** Follows the run while the page is looked at: it is told again from its begin, and a tab out of view takes no connection. */
  private watch(run: Run): void {
    document.addEventListener(
      "visibilitychange",
      () => {
        if (this.run !== run.run || !this.progress) return;
        this.events?.close();
        this.follow(run);
      },
      { once: true },
    );
  }

  async stop(): Promise<void> {
    try {
      await workbench.client.stopRun(this.run);
    } catch {
      this.end("The program does not answer.");
    }
  }

  private end(note: string): void {
    this.events?.close();
    this.events = undefined;
    this.progress = null;
    this.note = note;
  }
}

function failure(data: string): string {
  try {
    const { error } = JSON.parse(data) as { error?: { message?: string; remedy?: string } };
    return [error?.message, error?.remedy].filter(Boolean).join(" ") || "The run could not be finished.";
  } catch {
    return "The run could not be finished.";
  }
}

export const benchWork = new BenchWork();
