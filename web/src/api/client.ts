import type { System } from "../units";
import { GivenUp, NoAnswer, Refusal } from "./faults";
import { type Headers, Holding } from "./holding";
import type { Bend, DiskText, Drawer, Edit, JobState, ResultDocument, SchemaKey, Session, StackView, Trial } from "./model";

async function answer<T>(request: Promise<Response>): Promise<T> {
  let response: Response;
  let body: unknown;
  try {
    response = await request;
    body = await response.json();
  } catch (fault) {
    if (fault instanceof DOMException && fault.name === "AbortError") throw new GivenUp("no longer wanted");
    throw new NoAnswer("the server does not answer");
  }
  if (response.ok) return body as T;
  const error = (body as { error?: { code: string; message: string; remedy: string } }).error;
  throw new Refusal(response.status, error?.code ?? "", error?.message ?? response.statusText, error?.remedy ?? "", body);
}

/** The server's routes, one function each. The token changes with each start of the server: session() renews it. */
export class Client {
  private token = "";
  private readonly held = new Holding();
  /** Of the numbers inside the server's sentences. */
  system: System = "metric";

  /** `id` identifies this tab in the stream of events. */
  constructor(readonly id: string) {}

  private get<T>(path: string, headers: Headers = {}): Promise<T> {
    return answer<T>(fetch(path, { headers: { Accept: "application/json", ...headers } }));
  }
  private post<T>(path: string, body: object, signal: AbortSignal | null = null, more: Headers = {}): Promise<T> {
    const headers = { "Content-Type": "application/json", "X-Shimwright-Token": this.token, ...more };
    return answer<T>(fetch(path, { method: "POST", headers, body: JSON.stringify({ client: this.id, ...body }), signal }));
  }

  private query(more: Readonly<Record<string, string | number | undefined>> = {}): string {
    const texts = Object.entries(more).flatMap(([key, value]) => (value === undefined ? [] : [[key, String(value)]]));
    return new URLSearchParams([["system", this.system], ...texts]).toString();
  }

  private bending({ path: bend, ...load }: Partial<Bend> = {}): string {
    return this.query({ bend, ...load });
  }

  async session(): Promise<Session> {
    const session = await this.get<Session>("/api/session");
    this.token = session.token;
    return session;
  }
  schema(): Promise<SchemaKey[]> {
    return this.get("/api/schema");
  }
  // `bend`: a stack whose bent shape the answer brings along
  job(id: string, bend?: Bend): Promise<JobState> {
    const asked = (headers: Headers): Promise<JobState> => this.get(`/api/jobs/${id}?${this.bending(bend)}`, headers);
    return this.held.taken(asked, () => asked({}));
  }
  /** `client`: a name of its own for each edit; with `again` the server does what comes under it once. */
  edit(id: string, base: number, edit: { client: string; note: string; edits: readonly Edit[]; again: boolean }, bend?: Bend): Promise<JobState> {
    return this.change(id, "edit", { base, ...edit }, bend);
  }
  try(id: string, edits: readonly Edit[], signal: AbortSignal, bend?: Bend): Promise<Trial> {
    const asked = (headers: Headers): Promise<Trial> =>
      this.post(`/api/jobs/${id}/try?${this.bending(bend)}`, { edits }, signal, headers);
    return this.held.taken(asked, () => asked({}));
  }
  step(id: string, way: "undo" | "redo", bend?: Bend): Promise<JobState> {
    return this.change(id, way, {}, bend);
  }
  save(id: string, expectDisk: string, over: boolean): Promise<JobState> {
    return this.change(id, "save", { expect_disk: expectDisk, over });
  }
  disk(id: string): Promise<DiskText> {
    return this.get(`/api/jobs/${id}/disk`);
  }
  reload(id: string): Promise<JobState> {
    return this.change(id, "reload", {});
  }
  create(name: string, from: string): Promise<JobState> {
    return this.post("/api/jobs", { name, from });
  }
  /** What changes a job is done once; should its answer not fit what the page holds, the job as it is now is asked for. */
  private change(id: string, what: string, body: object, bend?: Bend): Promise<JobState> {
    const path = `/api/jobs/${id}/${what}?${this.bending(bend)}`;
    return this.held.taken((headers) => this.post<JobState>(path, body, null, headers), () => this.job(id, bend));
  }
  result(id: string, revision?: number): Promise<ResultDocument> {
    return this.get(`/api/jobs/${id}/result?${this.query(revision === undefined ? {} : { revision })}`);
  }
  parts(id: string): Promise<Drawer> {
    return this.get(`/api/jobs/${id}/parts`);
  }
  stack(id: string, bend: Bend): Promise<StackView> {
    return this.get(`/api/jobs/${id}/stack?${this.query({ ...bend })}`);
  }
  bench(id: string): Promise<{ run: string }> {
    return this.post(`/api/jobs/${id}/bench?${this.query()}`, {});
  }
  stopRun(run: string): Promise<unknown> {
    return this.post(`/api/runs/${run}/stop`, {});
  }
  runEvents(run: string): EventSource {
    return new EventSource(`/api/runs/${run}/events`);
  }
  events(): EventSource {
    return new EventSource("/api/events");
  }
}
