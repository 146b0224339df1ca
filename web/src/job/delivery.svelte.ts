import type { Client } from "../api/client";
import { Refusal } from "../api/faults";
import type { Bend, Edit, JobState } from "../api/model";
import { Outbox, type Parcel } from "./outbox";
import { inherit, jobsWith, keyOf, tab } from "./tab";

/** Who is told of what becomes of the parcels. */
interface Receiver {
  /** The bent stack to ask for together with this job's new state. */
  bendOf(job: string): Bend | undefined;
  leaving(job: string): void;
  arrived(job: JobState, bend: Bend | undefined): void;
  refused(parcel: Parcel, fault: Refusal): void;
  failed(fault: unknown): void;
  renewSession(): Promise<void>;
}

/** Why nothing can be kept for now, as the server names it. */
export type Hindrance = "journal_full" | "journal" | "read_only";
const hindrances: readonly string[] = ["journal_full", "journal", "read_only"] satisfies Hindrance[];

const mostTries = 4; // of one parcel, before its words are handed back
const firstPause = 500; // ms before a hindered parcel is sent again, growing to
const longestPause = 4000;

/** What waits for one job, and the job as the server last told it: the next edit builds on that. */
interface Line {
  readonly outbox: Outbox;
  job?: JobState;
}

/**
 * Brings what was typed to the server: of every job, one request at a time, until all of it is acknowledged. What the server
 * cannot keep for now stays in its outbox and goes again.
 */
export class Delivery {
  private readonly lines = new Map<string, Line>();
  private nChanges = $state(0); // of the outboxes, which are no runes: makes what is asked of them follow
  hindrance = $state.raw<Hindrance>();
  /** Something is on its way or waits for an answer. */
  private flushing: Promise<void> | undefined;
  private timer = 0;
  private pause = firstPause;
  private nNames = 0;
  connected = true;

  constructor(
    private readonly client: Client,
    private readonly receiver: Receiver,
  ) {}

  typed(job: string, path: string): string | undefined {
    void this.nChanges;
    return this.lines.get(job)?.outbox.typed(path);
  }
  /** How many changes of this job wait. */
  waiting(job: string): number {
    void this.nChanges;
    return this.lines.get(job)?.outbox.size ?? 0;
  }
  /** How many changes of other jobs wait. */
  waitingElsewhere(job: string): number {
    void this.nChanges;
    return [...this.lines].reduce((sum, [id, line]) => (id === job ? sum : sum + line.outbox.size), 0);
  }
  /** What waits would be lost with the page: the browser has no room for it. */
  get exposed(): boolean {
    void this.nChanges;
    return [...this.lines.values()].some(({ outbox }) => !outbox.empty && !outbox.shelved);
  }

  add(job: string, edits: readonly Edit[], note: string): void {
    this.line(job).outbox.add(edits, note);
    this.nChanges += 1;
  }
  addFirst(job: string, edits: readonly Edit[], note: string): void {
    this.line(job).outbox.addFirst(edits, note);
    this.nChanges += 1;
  }

  /** The server's newest of a job; `anyway`: also when its serial is smaller, as in a journal begun anew. */
  know(job: JobState, anyway = false): void {
    const line = this.line(job.id);
    if (anyway || !line.job || line.job.serial <= job.serial) line.job = job;
  }

  /** Takes over what closed pages could not send any more, of all these jobs. */
  async inherit(jobs: readonly string[]): Promise<void> {
    const kept = new Set(jobsWith("unsent"));
    for (const job of jobs) if (kept.has(job)) await inherit("unsent", job, (text) => this.line(job).outbox.inherit(text));
    this.nChanges += 1;
  }

  /** Sends what waits, one request at a time; done when nothing waits any more, or nothing can be kept. */
  flush(): Promise<void> {
    clearTimeout(this.timer);
    this.flushing ??= this.sendAll().finally(() => (this.flushing = undefined));
    return this.flushing;
  }

  private line(job: string): Line {
    const found = this.lines.get(job);
    if (found) return found;
    const begun: Line = { outbox: new Outbox(localStorage, keyOf("unsent", job), () => `${tab}.${++this.nNames}`) };
    this.lines.set(job, begun);
    return begun;
  }

  private async sendAll(): Promise<void> {
    try {
      for (;;) {
        const next = [...this.lines].find(([, line]) => !line.outbox.empty);
        if (!next || !this.connected || !(await this.sendLine(...next))) return;
      }
    } catch (fault) {
      this.receiver.failed(fault);
    }
  }

  /** False: nothing can be kept for now. */
  private async sendLine(id: string, line: Line): Promise<boolean> {
    let nTries = 0;
    line.job ??= await this.client.job(id);
    for (let parcel = line.outbox.next(); parcel; parcel = line.outbox.next()) {
      const again = parcel.sent === true;
      const bend = this.receiver.bendOf(id);
      this.receiver.leaving(id);
      line.outbox.sending(parcel);
      try {
        const { note, edits } = parcel;
        line.job = await this.client.edit(id, line.job.revision, { client: parcel.id, note, edits, again }, bend);
        this.delivered(line, parcel);
        nTries = 0;
        this.receiver.arrived(line.job, bend);
      } catch (fault) {
        if (!(fault instanceof Refusal)) throw fault;
        if (hindrances.includes(fault.code)) {
          this.waitFor(fault.code as Hindrance);
          return false;
        }
        nTries += 1;
        if (nTries < mostTries && (await this.overcome(fault, line, parcel))) continue;
        this.delivered(line, parcel);
        this.receiver.refused(parcel, fault);
      }
    }
    return true;
  }

  /** A refusal that says only that the page had not heard the newest: take that, and the parcel may go again. */
  private async overcome(fault: Refusal, line: Line, parcel: Parcel): Promise<boolean> {
    if (fault.code === "bad_token") {
      await this.receiver.renewSession();
      return true;
    }
    const newest = (fault.body as { job?: JobState }).job;
    if (fault.status !== 409 || !newest) return false;
    line.job = newest;
    this.receiver.arrived(newest, undefined);
    return parcel.edits.every((edit) => !("text" in edit)); // a whole text would undo what others did
  }

  private delivered(line: Line, parcel: Parcel): void {
    line.outbox.delivered(parcel);
    this.nChanges += 1;
    this.hindrance = undefined;
    this.pause = firstPause;
  }

  private waitFor(hindrance: Hindrance): void {
    this.hindrance = hindrance;
    this.nChanges += 1;
    this.timer = window.setTimeout(() => void this.flush(), this.pause);
    this.pause = Math.min(this.pause * 1.5, longestPause);
  }
}

/** What was typed, so that the user can type it again. */
export function wordsOf(parcel: Parcel): string {
  return parcel.edits.map((edit) => ("typed" in edit ? edit.typed : "text" in edit ? "the whole file" : parcel.note)).join(", ");
}
