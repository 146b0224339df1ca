import { tick } from "svelte";
import { Client } from "../api/client";
import { NoAnswer, Refusal } from "../api/faults";
import type { Bend, Drawer, Edit, JobEvent, JobState, ResultDocument, Session } from "../api/model";
import type { System } from "../units";
import { alike } from "./alike";
import { Delivery, wordsOf } from "./delivery.svelte";
import { Schema } from "./fields";
import { kept } from "./kept.svelte";
import { markEdit, measureDrawn } from "./latency";
import { LoadedStack } from "./load.svelte";
import { News } from "./news";
import { type Standing, wordsOfRefusal } from "./notices";
import { inherit, tab } from "./tab";
import { told } from "./told.svelte";
import { Tries } from "./tries.svelte";

/** What the server refused, in words; shown above the work until it is over. */
export interface Refused {
  readonly text: string;
  readonly remedy: string;
}

const nothing = [] as const;
const noValues: Readonly<Record<string, string>> = {};
const typingPause = 150; // ms; what a value would do is shown when the hand rests this long
const restingPause = 800; // ms; it is kept when the hand rests this long: one step to undo, not one for each letter
const otherHandRests = 120; // ms without news after which the newest is asked for
const otherHandShown = 1000; // ms after which it is in any case
const blink = 400; // ms
const firstProbe = 250; // ms between tries to reach a silent server, growing to
const slowestProbe = 2000;

/**
 * The job on the bench, kept in step with the server: what is typed goes through the outbox, one request at a time, and
 * comes back as the new state. Other tabs' edits arrive by the stream of events.
 */
class Workbench {
  readonly client = new Client(tab);

  session = $state.raw<Session>();
  schema = $state.raw(new Schema([]));
  job = $state.raw<JobState>();
  parts = $state.raw<Drawer>();
  refusal = $state.raw<Refused>();
  /** Grows each time that a save meets a file that another program has changed. */
  conflict = $state(0);
  /** A parts file was changed by another program, and nobody has said yet that this is seen. */
  partsChanged = $state(false);
  connected = $state(true);
  /** The result before the last act of the hand, once there is one after it. */
  before = $state.raw<ResultDocument>();
  private comparedWith: ResultDocument | undefined;

  readonly loaded = new LoadedStack(this.client);
  private readonly tries = new Tries(this.client, this.loaded, () => (this.before = this.comparedWith), (fault) => this.fail(fault));
  private readonly delivery = new Delivery(this.client, {
    bendOf: (job) => (job === this.job?.id ? this.loaded.wanted : undefined),
    leaving: (job) => job === this.job?.id && this.tries.end(job),
    arrived: (job, bend) => this.arrived(job, bend),
    refused: (parcel, fault) => this.refuse(fault.message, `${fault.remedy} You typed: ${wordsOf(parcel)}`),
    failed: (fault) => this.fail(fault),
    renewSession: async () => void (this.session = await this.client.session()),
  });
  private act = "";
  private timer = 0;
  private previewTimer = 0;
  private nOpened = 0;
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

  /** What was typed has a fault: the page draws the last state without one. */
  get stale(): boolean {
    return this.job !== undefined && (this.job.result_revision < this.job.revision || this.job.drafts.length > 0);
  }
  /** Why the figures are older than what is typed; empty when they are not. */
  get older(): string {
    if (this.stale || this.tries.drafts.length > 0) return "From the last state without faults";
    return this.late && this.unsent && !this.preview ? "Older than what you typed" : "";
  }
  private late = $state(false); // what waits has waited for longer than a blink
  private lateTimer = 0;

  /** The text in the field of this path: what was typed last, or else what the file has. */
  typed(path: string): string | undefined {
    return this.delivery.typed(this.job?.id ?? "", path) ?? this.draft(path)?.typed ?? this.values[path];
  }
  draft(path: string) {
    const tried = this.tries.drafts.find((one) => one.path === path && !one.insert);
    if (tried) return tried;
    return this.drafts.find((one) => one.path === path && !one.insert);
  }
  /** How many changes of this job the program has not acknowledged, and how many of other jobs. */
  get waiting(): number {
    return this.delivery.waiting(this.job?.id ?? "");
  }
  get waitingElsewhere(): number {
    return this.delivery.waitingElsewhere(this.job?.id ?? "");
  }
  get unsent(): boolean {
    return this.waiting > 0;
  }
  /** What stands between the hand and the file. */
  get standing(): Standing {
    return {
      connected: this.connected,
      waiting: this.waiting,
      waitingElsewhere: this.waitingElsewhere,
      hindrance: this.delivery.hindrance,
      exposed: this.delivery.exposed,
      journal: this.session?.journal ?? "kept",
      diskChanged: this.job?.disk_changed ?? false,
      diskMissing: this.job?.disk_missing ?? false,
      partsChanged: this.partsChanged,
    };
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
      await this.sendWhatIsLeft();
    } catch (fault) {
      this.fail(fault);
    }
  }

  async open(id: string): Promise<void> {
    this.nOpened += 1;
    const opening = this.nOpened;
    try {
      const job = await this.client.job(id);
      if (opening !== this.nOpened) return; // the hand has gone on to another one
      void this.flush(); // of the job before: it goes to that one
      this.before = this.comparedWith = undefined;
      this.tries.clear();
      this.act = "";
      this.delivery.know(job, true);
      newestOf(id).set(job.serial);
      this.job = job;
      this.parts = undefined;
      history.replaceState(null, "", `?job=${id}${location.hash}`);
      this.partsChanged = false;
      await kept.inherit(id);
      await this.delivery.inherit([id]);
      await inherit("tried", id, (text) => this.edit(JSON.parse(text) as Edit[], "typed before the page was closed", `tried ${id}`));
      void this.flush();
      const parts = await this.client.parts(id);
      if (this.job.id === id) this.parts = parts;
    } catch (fault) {
      this.fail(fault);
    }
  }

  /** What closed pages could not send any more, of every job of the folder. */
  private async sendWhatIsLeft(): Promise<void> {
    await this.delivery.inherit(this.session?.jobs.map((one) => one.id) ?? []);
    await this.flush();
  }

  /**
   * Takes what the hand did. `act` joins edits that are one act to the eye (the letters of one value): what the figures are
   * compared with stays as it was before the first of them.
   */
  edit(edits: readonly Edit[], note: string, act: string, when: "now" | "at rest" = "now"): void {
    if (!this.job) return;
    if (act !== this.act) {
      this.act = act;
      this.comparedWith = this.job?.result;
    }
    markEdit();
    if (!this.unsent) this.late = false;
    this.delivery.add(this.job.id, edits, note);
    this.watchForLate();
    clearTimeout(this.timer);
    clearTimeout(this.previewTimer);
    if (when === "now") {
      void this.flush();
    } else {
      this.previewTimer = window.setTimeout(() => this.job && this.tries.wish(this.job.id, edits), typingPause);
      this.timer = window.setTimeout(() => void this.flush(), restingPause);
    }
  }

  /** On this machine an answer is there in a blink: only what takes longer is worth a word. */
  get slow(): boolean {
    return this.late && this.unsent;
  }
  private watchForLate(): void {
    clearTimeout(this.lateTimer);
    this.lateTimer = window.setTimeout(() => (this.late = true), blink);
  }

  /** Sends what waits; done when nothing waits any more, also when it was under way already. */
  async flush(): Promise<void> {
    clearTimeout(this.timer);
    clearTimeout(this.previewTimer);
    await this.delivery.flush();
  }

  private arrived(job: JobState, bend: Bend | undefined): void {
    if (job.id !== this.job?.id) return;
    this.refusal = undefined;
    if (!this.unsent) {
      clearTimeout(this.lateTimer);
      this.late = false;
    }
    this.take(job, bend);
    told.say(`Kept: ${job.undo_note || "no change"}.`);
  }

  /** The numbers inside the server's sentences follow the switch too. */
  showIn(system: System): void {
    this.client.system = system;
    void this.refresh();
  }

  async step(way: "undo" | "redo"): Promise<void> {
    if (!(await this.allKept())) return;
    const before = this.job?.result;
    const bend = this.loaded.wanted;
    await this.ask(async (id) => {
      markEdit();
      const job = await this.client.step(id, way, bend);
      this.act = `${way} ${job.serial}`;
      this.comparedWith = before;
      const words = way === "undo" ? job.redo_note : job.undo_note;
      told.say(`${way === "undo" ? "Undone" : "Redone"}: ${words || "nothing"}.`);
      return job;
    }, bend);
  }

  async save(over = false): Promise<void> {
    if (!(await this.allKept())) return;
    await this.ask(async (id, job) => {
      const saved = await this.client.save(id, job.disk_hash, over);
      told.say(over ? "Written over the file. Undo brings back what the other program had written." : "Saved to the file.");
      return saved;
    });
  }

  /** What builds on all that was typed waits for it; where that cannot be kept, its notice says why nothing happens. */
  private async allKept(): Promise<boolean> {
    await this.flush();
    if (!this.unsent) return true;
    told.say("Not yet: what you typed before is not kept.");
    return false;
  }

  reload(): Promise<void> {
    return this.ask(async (id) => {
      const loaded = await this.client.reload(id);
      told.say("Loaded from the file. Undo brings your text back.");
      return loaded;
    });
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
      this.refusal = undefined;
      this.take(await request(this.job.id, this.job), bend);
    } catch (fault) {
      this.fail(fault);
    }
  }

  /** A state of the job, and with it the stack that is shown bent. */
  private take(job: JobState, bend?: Bend, anyway = false): void {
    if (this.job?.id !== job.id) return;
    if (job.serial < this.job.serial && !anyway) return; // overtaken on the way
    this.delivery.know(job, anyway);
    newestOf(job.id).set(job.serial);
    this.job = alikeJob(this.job, job);
    this.before = this.comparedWith;
    this.tries.clear();
    this.loaded.take(job.stack_view, job.result, bend);
    void tick().then(measureDrawn);
  }

  private async refresh(): Promise<void> {
    if (!this.job || !this.connected) return;
    this.refreshWanted = true;
    if (this.refreshing) return;
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

  /**
   * After the program was away, or the journal was: the job as it is now. A serial that went back is one of a journal that
   * has lost what this page still shows: the page puts that back, as a step that undo takes away again.
   */
  private async catchUp(): Promise<void> {
    const start = this.session?.token;
    this.session = await this.client.session();
    if (!this.job) return;
    const had = this.job;
    const job = await this.client.job(had.id);
    const isNewest = newestOf(job.id).is(had.serial);
    this.take(job, undefined, true);
    // of several tabs the one that had heard the newest; and a program that goes on has it all itself
    if (!isNewest || start === this.session.token || this.session.read_only) return;
    if (job.serial >= had.serial || job.text === had.text) return;
    const drafts = had.drafts.map((one) => ({ [one.insert ? "insert" : "set"]: one.path, typed: one.typed }) as Edit);
    this.delivery.addFirst(had.id, [{ text: had.text }, ...drafts], "what this page had when the journal was lost");
  }

  private hear(news: JobEvent): void {
    if (news.job === "") {
      void this.catchUp().then(() => this.sendWhatIsLeft()).catch((fault: unknown) => this.fail(fault));
      return;
    }
    if (news.job === this.job?.id && news.parts_changed) {
      this.partsChanged = true;
      void this.client.parts(news.job).then((parts) => (this.job?.id === news.job ? (this.parts = parts) : undefined), () => undefined);
    }
    const mine = news.client.startsWith(tab) && !news.disk_changed;
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

  private refuse(text: string, remedy: string): void {
    this.refusal = { text, remedy };
    told.say(`${text} ${remedy}`);
  }

  private refused(fault: Refusal): void {
    if (fault.code === "disk_changed") void this.refresh().then(() => (this.conflict += 1)); // the new state brings the choice
    else this.refuse(...wordsOfRefusal(fault.code, fault.message, fault.remedy));
  }

  private lose(): void {
    if (!this.connected) return;
    this.connected = this.delivery.connected = false;
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
    await this.catchUp();
    if (this.schema.keys.length === 0) this.schema = new Schema(await this.client.schema());
    this.connected = this.delivery.connected = true;
    this.news.listen();
    told.say("The program answers again.");
    if (this.job) await this.sendWhatIsLeft();
    else await this.begin();
  }
}

/** The serial that any tab of this browser has heard last of a job. */
function newestOf(job: string) {
  const key = `shimwright.newest.${job}`;
  return {
    is: (serial: number): boolean => (localStorage.getItem(key) ?? String(serial)) === String(serial),
    set: (serial: number): void => {
      try {
        localStorage.setItem(key, String(serial));
      } catch {
        // no room: then each tab counts for itself
      }
    },
  };
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

export const workbench = new Workbench();
