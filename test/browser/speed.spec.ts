import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench } from "./bench";

const nEdits = 120;
const slowestP95 = 33; // ms, two frames at 60 Hz: the aim of the design
const slack = Number(process.env["SHIMWRIGHT_SPEED_SLACK"] ?? "1"); // of a machine that does other work meanwhile

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

const quantile = (sorted: number[], q: number): number => sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? NaN;

it("an edit of a shim is drawn within two frames: curves, picture, ledger, findings", async () => {
  const page = await bench.page();
  await bench.open(page, "valving");
  const list = page.getByRole("listbox");
  await list.focus();
  await list.press("End");
  const last = list.locator(".text").last();
  const ms: number[] = [];
  for (let n = 0; n < nEdits; ++n) {
    const count = n % 2 === 0 ? 5 : 4;
    const nBefore = await page.evaluate(() => performance.getEntriesByName("shimwright: edit to drawn").length);
    await list.press(n % 2 === 0 ? "+" : "-");
    await page.waitForFunction((before) => performance.getEntriesByName("shimwright: edit to drawn").length > before, nBefore);
    expect(await last.textContent()).toBe(`${count} x 21 x 0.10 mm`);
  }
  ms.push(...(await page.evaluate(() => performance.getEntriesByName("shimwright: edit to drawn").map((one) => one.duration))));
  ms.sort((a, b) => a - b);
  const job = await page.evaluate(async () => (await fetch(`/api/jobs/${new URLSearchParams(location.search).get("job")}`)).json());
  console.log(
    `edit to drawn, ${ms.length} edits: least ${ms[0]?.toFixed(1)}, p50 ${quantile(ms, 0.5).toFixed(1)}, p90 ${quantile(ms, 0.9).toFixed(1)}, p95 ${quantile(ms, 0.95).toFixed(1)}, most ${ms.at(-1)?.toFixed(1)} ms; of it on the server, last: computed ${job.timing.compute_ms.toFixed(1)}, encoded ${job.timing.encode_ms.toFixed(1)} ms`,
  );
  expect(ms.length).toBeGreaterThanOrEqual(100);
  expect(quantile(ms, 0.95)).toBeLessThanOrEqual(slowestP95 * slack);
});

it("the first paint is there within half a second of a cold start of the program", async () => {
  await bench.program.kill();
  const page = await bench.page();
  const began = performance.now();
  await bench.program.start();
  const served = performance.now() - began;
  await page.goto(bench.program.address);
  const paint = await page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        new PerformanceObserver((list) => resolve(list.getEntriesByName("first-contentful-paint")[0]?.startTime ?? NaN)).observe({
          type: "paint",
          buffered: true,
        });
      }),
  );
  console.log(`program serves after ${served.toFixed(0)} ms, first paint ${paint.toFixed(0)} ms after that`);
  expect(served + paint).toBeLessThanOrEqual(500 * slack);
});

it("the whole page is at most 150 kB on the wire", async () => {
  const page = await bench.page();
  const files = new Map<string, number>();
  page.on("response", async (response) => {
    const path = new URL(response.url()).pathname;
    if (!path.startsWith("/api/")) files.set(path, gzipSync(await response.body(), { level: 9 }).length);
  });
  await bench.open(page);
  await page.evaluate(() => document.fonts.ready);
  await expect.poll(() => [...files.keys()].filter((path) => path.endsWith(".woff2")).length).toBe(2);
  const bytes = [...files.values()].reduce((sum, one) => sum + one, 0);
  console.log(`page: ${(bytes / 1000).toFixed(1)} kB gzipped in ${files.size} files`);
  expect(bytes).toBeLessThanOrEqual(150_000);
});
