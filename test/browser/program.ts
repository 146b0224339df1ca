import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** The program under test: SHIMWRIGHT_BINARY, or where the README's build puts it. */
export const binary = process.env["SHIMWRIGHT_BINARY"] ?? join(root, "build/shimwright");

// a file that meets its limit is an error to the program, not its end: so a disk is full for one process alone
const heedless = 'trap "" XFSZ; exec "$0" "$@"';

/** The program serving a copy of an example, in a folder of its own. */
export class Program {
  private child: ChildProcess | undefined;
  address = "";
  /** From the start of the process to the printed address [ms]. */
  startMs = 0;

  private constructor(
    readonly folder: string,
    private readonly job: string,
  ) {}

  /** Serves a copy of a folder of examples: the job named, or the list of all when none is. */
  static async serve(example: string, job = ""): Promise<Program> {
    const folder = mkdtempSync(join(tmpdir(), "shimwright-browser-"));
    cpSync(join(root, "examples", example), folder, { recursive: true });
    const program = new Program(folder, job);
    await program.start();
    return program;
  }

  get journal(): string {
    return join(this.folder, "journal.db");
  }

  /** Starts it, again at the same address when it ran before; `anywhere`: at the one that it takes by itself. */
  async start(anywhere = false): Promise<void> {
    const port = this.address === "" || anywhere ? [] : ["--port", new URL(this.address).port];
    const began = performance.now();
    const child = spawn("sh", ["-c", heedless, binary, "open", join(this.folder, this.job), "--no-browser", "--journal", this.journal, ...port], { stdio: ["ignore", "pipe", "pipe"] });
    this.child = child;
    let said = "";
    await new Promise<void>((resolve, reject) => {
      const hear = (piece: Buffer): void => {
        said += piece.toString();
        const found = /http:\/\/127\.0\.0\.1:\d+(?=\/\n)/.exec(said)?.[0];
        if (!found) return;
        this.address = found;
        resolve();
      };
      child.stdout.on("data", hear);
      child.stderr.on("data", hear);
      child.once("exit", (code) => reject(new Error(`the program ended with ${code} before it served: ${said}`)));
    });
    this.startMs = performance.now() - began;
  }

  /** Another one on the same folder and journal, at an address of its own. */
  async second(): Promise<Program> {
    const other = new Program(this.folder, this.job);
    await other.start();
    return other;
  }

  /** No file that the program writes may grow, until it may again. */
  fillDisk(full: boolean): void {
    const log = `${this.journal}-wal`;
    const limit = full ? String(existsSync(log) ? statSync(log).size : 0) : "unlimited";
    execFileSync("prlimit", [`--pid=${this.child?.pid ?? 0}`, `--fsize=${limit}:unlimited`]);
  }

  /** As a power cut would: it gets no chance to tidy up. */
  async kill(): Promise<void> {
    const child = this.child;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const gone = new Promise((resolve) => child.once("exit", resolve));
    child.kill("SIGKILL");
    await gone;
  }

  async end(): Promise<void> {
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }
}
