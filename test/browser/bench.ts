import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { Program } from "./program";

const flags = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export const sizes = {
  phone: { width: 360, height: 740 },
  tablet: { width: 768, height: 1024 },
  laptop: { width: 1366, height: 768 },
} as const;
export type Size = keyof typeof sizes;
export type Theme = "light" | "dark";

/** A browser beside a serving program. Whatever any page does that no page may do is noted here. */
export class Bench {
  /** Console errors, thrown errors, requests that leave the machine. While the program is away its silence is no fault. */
  readonly faults: string[] = [];
  private readonly contexts: BrowserContext[] = [];

  private constructor(
    readonly program: Program,
    readonly browser: Browser,
  ) {}

  static async set(example: string, job = `${example}.job.toml`): Promise<Bench> {
    const program = await Program.serve(example, job);
    const browser = await chromium.launch({ executablePath: process.env["CHROMIUM"] ?? "/usr/bin/chromium", args: flags });
    return new Bench(program, browser);
  }

  async context(size: Size = "laptop", theme: Theme = "light"): Promise<BrowserContext> {
    const context = await this.browser.newContext({ viewport: sizes[size], colorScheme: theme, reducedMotion: "reduce" });
    this.contexts.push(context);
    return context;
  }

  async page(size: Size = "laptop", theme: Theme = "light"): Promise<Page> {
    return this.tab(await this.context(size, theme));
  }

  async tab(context: BrowserContext): Promise<Page> {
    const page = await context.newPage();
    page.on("console", (message) => {
      if (message.type() !== "error" && message.type() !== "warning") return;
      if (/ERR_CONNECTION_REFUSED|ERR_INCOMPLETE_CHUNKED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE/.test(message.text())) return;
      this.faults.push(`console ${message.type()}: ${message.text()}`);
    });
    page.on("pageerror", (error) => this.faults.push(`thrown: ${error.message}`));
    page.on("request", (request) => {
      const url = new URL(request.url());
      if (url.protocol.startsWith("http") && url.origin !== this.program.address) this.faults.push(`outside: ${request.url()}`);
    });
    return page;
  }

  async open(page: Page, station = "rider"): Promise<void> {
    await page.goto(`${this.program.address}/#${station}`);
    await page.locator("aside .value").first().waitFor();
  }

  async end(): Promise<void> {
    for (const context of this.contexts) await context.close();
    await this.browser.close();
    await this.program.end();
  }
}

/** The field of one key of the job file. */
export const field = (page: Page, path: string) => page.locator(`[data-path="${path}"]`);

/** Types a value as a hand does, and goes on with Enter. */
export async function type(page: Page, path: string, text: string): Promise<void> {
  const input = field(page, path);
  await input.click();
  await input.fill(text);
  await input.press("Enter");
}

/** Until the server has all that was typed. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => Object.keys(localStorage).every((key) => !key.startsWith("shimwright.unsent")));
}
