import { tick } from "svelte";
import { Client } from "../api/client";
import { NoAnswer, Refusal } from "../api/faults";
import type { Bend, Drawer, Edit, JobEvent, JobState, ResultDocument, Session } from "../api/model";
import type { System } from "../units";
import { alike } from "./alike";
import { Schema } from "./fields";
import { markEdit, measureDrawn } from "./latency";
import { LoadedStack } from "./load.svelte";
import { News } from "./news";
import { Outbox, type Parcel } from "./outbox";
import { randomId } from "./random_id";
import { Tries } from "./tries.svelte";

/** What the server refused, or what happened to the file, in words; shown above the work until it is over. */
export interface Notice {
  readonly text: string;
  readonly remedy: string;
}

const nothing = [] as const;
const noValues: Readonly<Record<string, string>> = {};
const typingPause = 150; // ms; what a value would do is shown when the hand rests this long
const restingPause = 800; // ms; it is kept when the hand rests this long: one step to undo, not one for each letter
const otherHandRests = 120; // ms without news after which the newest is asked for
const otherHandShown = 1000; // ms after which it is in any case
const firstProbe = 250; // ms between tries to reach a silent server, growing to
const slowestProbe = 2000;
const mostTries = 4; // of one parcel, before its words are handed back

/**
 * The job on the bench, kept in step with the server: what is typed goes through the outbox, one request at a time, and
 * comes back as the new state. Other tabs' edits arrive by the stream of events.
 */
class Workbench {
  readonly client = new Client(randomId());

  session = $state.raw<Session>();
  schema = $state.raw(new Schema([]));
  job = $state.raw<JobState>();
  parts = $state.raw<Drawer>();
  notice = $state.raw<Notice>();
  connected = $state(true);
  /** The result before the last act of the hand, once there is one after it. */
  before = $state.raw<ResultDocument>();
  private comparedWith: ResultDocument | undefined;

  private outbox = $state.raw<Outbox>();
  private nChanges = $state(0); // of the outbox, which is no rune: makes typed() follow it
  readonly loaded = new LoadedStack(this.client);
  private readonly tries = new Tries(this.client, this.loaded, () => (this.before = this.comparedWith), (fault) => this.fail(fault));
  private act = "";
  private timer = 0;
  private previewTimer = 0;
  private sending = false;
  private flushing: Promise<void> | undefined;
  private refreshing = false;
  private refreshWanted = false;
  private readonly news = new News(() => this.client.events(), {
    heard: (data) => this.hear(JSON.parse(data) as JobEvent),
    opened: () => this.refreshSoon(),
    lost: () => this.lose(),
  });
  private newsTimer = 0;
  private newsSince = 0;

  // each by itself: what an answer leaves as it was is not looked at again
  readonly preview = $derived(this.tries.preview);
  readonly result = $derived(this.preview ?? this.job?.result);
  readonly findings = $derived(this.result?.findings ?? nothing);
  readonly values = $derived(this.job?.values ?? noValues);
  readonly drafts = $derived(this.job?.drafts ?? nothing);
  readonly diagnostics = $derived(this.job?.diagnostics ?? nothing);

  /** The page draws an older state than the text in the fields. */
  get stale(): boolean {
    return this.job !== undefined && (this.job.result_revision < this.job.revision || this.job.drafts.length > 0);
  }

  /** The text in the field of this path: what was typed last, or else what the file has. */
  typed(path: string): string | undefined {
    void this.nChanges;
    return this.outbox?.typed(path) ?? this.draft(path)?.typed ?? this.values[path];
  }
  draft(path: string) {
    const tried = this.tries.drafts.find((one) => one.path === path && !one.insert);
    if (tried) return tried;
    return this.drafts.find((one) => one.path === path && !one.insert);
  }
  get unsent(): boolean {
    void this.nChanges;
    return this.outbox !== undefined && !this.outbox.empty;
  }

  async begin(): Promise<void> {
    try {
      const schema = this.client.schema(); // requested together with the job: neither needs the other
      this.session = await this.client.session();
      this.news.listen();
      const wanted = new URLSearchParams(location.search).get("job");
      const [only, another] = this.session.jobs;
      const named = wanted ?? (this.session.open || (another ? "" : only?.id));
      const first = this.session.jobs.find((one) => one.id === named);
      const opened = first && this.open(first.id);
      this.schema = new Schema(await schema);
      await opened;
    } catch (fault) {
      this.fail(fault);
    }
  }

  async open(id: string): Promise<void> {
    try {
      const job = await this.client.job(id);
      this.before = this.comparedWith = undefined;
      this.tries.clear();
      this.act = "";
      this.outbox = new Outbox(localStorage, `shimwright.unsent.${id}`);
      this.outbox.settle(job);
      this.job = job;
      this.parts = undefined;
      this.nChanges += 1;
      history.replaceState(null, "", `?job=${id}${location.hash}`);
      this.parts = await this.client.parts(id);
      const tried = this.tries.left(id);
      if (tried) this.edit(tried, "typed before the page was closed", `tried ${id}`);
      void this.flush();
    } catch (fault) {
      this.fail(fault);
    }
  }

  /**
   * Takes what the hand did. `act` joins edits that are one act to the eye (the letters of one value): what the figures are
   * compared with stays as it was before the first of them.
   */
  edit(edits: readonly Edit[], note: string, act: string, when: "now" | "at rest" = "now"): void {
    if (!this.outbox) return;
    if (act !== this.act) {
      this.act = act;
      this.comparedWith = this.job?.result;
    }
    markEdit();
    this.outbox.add(edits, note);
    this.nChanges += 1;
    clearTimeout(this.timer);
    clearTimeout(this.previewTimer);
    if (when === "now") {
      void this.flush();
    } else {
      this.previewTimer = window.setTimeout(() => this.job && this.tries.wish(this.job.id, edits), typingPause);
      this.timer = window.setTimeout(() => void this.flush(), restingPause);
    }
  }

  /** Sends what waits, one request at a time; done when nothing waits any more, also when it was under way already. */
  flush(): Promise<void> {
    clearTimeout(this.timer);
    clearTimeout(this.previewTimer);
    this.flushing ??= this.sendAll().finally(() => (this.flushing = undefined));
    return this.flushing;
  }

  private async sendAll(): Promise<void> {
    while (this.job && this.connected && (this.unsent || this.refreshWanted)) {
      this.sending = true;
      try {
        await this.sendParcels();
      } catch (fault) {
        this.fail(fault);
      } finally {
        this.sending = false;
      }
      if (this.refreshWanted) await this.refresh();
    }
  }

  private async sendParcels(): Promise<void> {
    let nTries = 0;
    for (;;) {
      const job = this.job;
      const parcel = job && this.outbox?.next(job.serial);
      if (!job || !parcel) return;
      this.tries.end(job.id);
      try {
        const bend = this.loaded.wanted;
        const next = await this.client.edit(job.id, job.revision, parcel.edits, parcel.note, bend);
        this.delivered();
        nTries = 0;
        this.notice = undefined;
        this.take(next, bend);
      } catch (fault) {
        if (!(fault instanceof Refusal)) throw fault;
        nTries += 1;
        if (nTries < mostTries && (await this.overcome(fault, parcel))) continue;
        this.delivered();
        this.notice = { text: fault.message, remedy: `${fault.remedy} You typed: ${wordsOf(parcel)}` };
      }
    }
  }

  /** A refusal that says only that the page had not heard the newest: take that, and the parcel may go again. */
  private async overcome(fault: Refusal, parcel: Parcel): Promise<boolean> {
    if (fault.code === "bad_token") {
      this.session = await this.client.session();
      return true;
    }
    const newest = (fault.body as { job?: JobState }).job;
    if (fault.status !== 409 || !newest) return false;
    this.take(newest);
    return parcel.edits.every((edit) => !("text" in edit)); // a whole text would undo what others did
  }

  private delivered(): void {
    this.outbox?.delivered();
    this.nChanges += 1;
  }

  /** The numbers inside the server's sentences follow the switch too. */
  showIn(system: System): void {
    this.client.system = system;
    void this.refresh();
  }

  async step(way: "undo" | "redo"): Promise<void> {
    await this.flush();
    const before = this.job?.result;
    const bend = this.loaded.wanted;
    await this.ask(async (id) => {
      markEdit();
      const job = await this.client.step(id, way, bend);
      this.act = `${way} ${job.serial}`;
      this.comparedWith = before;
      return job;
    }, bend);
  }

  async save(over = false): Promise<void> {
    await this.flush();
    await this.ask((id, job) => this.client.save(id, job.disk_hash, over));
  }

  reload(): Promise<void> {
    return this.ask((id) => this.client.reload(id));
  }

  async create(name: string, from: string): Promise<boolean> {
    try {
      const job = await this.client.create(name, from);
      this.session = await this.client.session();
      await this.open(job.id);
      return true;
    } catch (fault) {
      this.fail(fault);
      return false;
    }
  }

  /** Computes without keeping, while a finger drags or types. Null ends it. */
  try(edits: readonly Edit[] | null): void {
    if (!this.job) return;
    if (edits && !this.preview) {
      this.act = "";
      this.comparedWith = this.job.result;
    }
    this.tries.wish(this.job.id, edits);
  }

  private async ask(request: (id: string, job: JobState) => Promise<JobState>, bend?: Bend): Promise<void> {
    if (!this.job) return;
    try {
      this.notice = undefined;
      this.take(await request(this.job.id, this.job), bend);
    } catch (fault) {
      this.fail(fault);
    }
  }

  /** A state of the job, and with it the stack that is shown bent. */
  private take(job: JobState, bend?: Bend): void {
    if (this.job?.id !== job.id) return;
    if (job.serial < this.job.serial) return; // overtaken on the way
    this.job = alikeJob(this.job, job);
    this.before = this.comparedWith;
    this.tries.clear();
    this.loaded.take(job.stack_view, job.result, bend);
    void tick().then(measureDrawn);
  }

  private async refresh(): Promise<void> {
    if (!this.job || !this.connected) return;
    this.refreshWanted = true;
    if (this.sending || this.refreshing) return;
    this.refreshing = true;
    try {
      while (this.refreshWanted && this.connected) {
        this.refreshWanted = false;
        const bend = this.loaded.wanted;
        this.take(await this.client.job(this.job.id, bend), bend);
      }
    } catch (fault) {
      this.fail(fault);
    } finally {
      this.refreshing = false;
    }
  }

  private hear(news: JobEvent): void {
    const mine = news.client === this.client.id && !news.disk_changed;
    if (news.job === this.job?.id && !mine) this.refreshSoon();
  }

  /**
   * Asks for the newest when the other hand rests, and meanwhile now and then: seven tabs that each follow every letter
   * typed in the eighth would take the connections and the processor from it. A tab that is not looked at waits until it is.
   */
  private refreshSoon(): void {
    if (!this.job) return;
    const now = performance.now();
    if (this.newsTimer === 0) this.newsSince = now;
    clearTimeout(this.newsTimer);
    const pause = Math.max(0, Math.min(otherHandRests, this.newsSince + otherHandShown - now));
    this.newsTimer = window.setTimeout(() => {
      this.newsTimer = 0;
      this.refreshWanted = true;
      this.look();
    }, pause);
  }

  /** The page is looked at: now it needs the newest. */
  look(): void {
    if (document.visibilityState === "visible" && this.refreshWanted) void this.refresh();
  }

  private fail(fault: unknown): void {
    if (fault instanceof NoAnswer) this.lose();
    else if (fault instanceof Refusal) this.refused(fault);
    else throw fault;
  }

  private refused(fault: Refusal): void {
    if (fault.code === "disk_changed") void this.refresh(); // the new state brings the choice
    else this.notice = { text: fault.message, remedy: fault.remedy };
  }

  private lose(): void {
    if (!this.connected) return;
    this.connected = false;
    this.probe(firstProbe);
  }

  private probe(pause: number): void {
    setTimeout(() => {
      this.reconnect().catch((fault: unknown) => {
        if (!(fault instanceof NoAnswer)) throw fault;
        this.probe(Math.min(pause * 1.5, slowestProbe));
      });
    }, pause);
  }

  private async reconnect(): Promise<void> {
    this.session = await this.client.session();
    if (this.schema.keys.length === 0) this.schema = new Schema(await this.client.schema());
    if (this.job) {
      const job = await this.client.job(this.job.id);
      this.outbox?.settle(job);
      this.take(job);
    }
    this.connected = true;
    this.news.listen();
    if (this.job) await this.flush();
    else await this.begin();
  }
}

/** The state with what it has in common with the one before; its result shares already, where it came as changes. */
function alikeJob(before: JobState, job: JobState): JobState {
  return {
    ...job,
    values: alike(before.values, job.values),
    drafts: alike(before.drafts, job.drafts),
    diagnostics: alike(before.diagnostics, job.diagnostics),
  };
}

/** What was typed, so that the user can type it again. */
function wordsOf(parcel: Parcel): string {
  return parcel.edits.map((edit) => ("typed" in edit ? edit.typed : "text" in edit ? "the whole file" : parcel.note)).join(", ");
}

export const workbench = new Workbench();
