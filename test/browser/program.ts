import { type ChildProcess, spawn } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** The program under test: SHIMWRIGHT_BINARY, or where the README's build puts it. */
export const binary = process.env["SHIMWRIGHT_BINARY"] ?? join(root, "build/shimwright");

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

  /** Starts it, again at the same address when it ran before. */
  async start(): Promise<void> {
    const port = this.address === "" ? [] : ["--port", new URL(this.address).port];
    const began = performance.now();
    const child = spawn(binary, ["open", join(this.folder, this.job), "--no-browser", "--journal", join(this.folder, "journal.db"), ...port], { stdio: ["ignore", "pipe", "pipe"] });
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
