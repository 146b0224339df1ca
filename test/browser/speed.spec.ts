import { gzipSync } from "node:zlib";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench } from "./bench";

const measure = "shimwright: edit to drawn";
const nEdits = 120;
const nBeside = 40; // eight tabs draw each of them
const frame = 1000 / 60; // ms
const pace = 80; // ms from an outcome to the next act: ten acts a second
const slowestP95 = 33; // ms, two frames at 60 Hz: the aim of the design
// A busy machine must not fail a check: the clock judges on demand, SHIMWRIGHT_SPEED=1, and tells its figures always.
const judged = process.env["SHIMWRIGHT_SPEED"] !== undefined;

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

const quantile = (sorted: number[], q: number): number => sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? NaN;

/**
 * The page's own measure, from the hand to the frame with the outcome, for each of the acts. Between two of them the hand
 * gets ready and pauses as briefly as a quick hand may, each time for another part of a frame: it does not keep step with
 * the screen. And nothing asks the page meanwhile whether it is done: looking at each frame would make it draw frames that
 * no hand asks for.
 */
async function drawn(page: Page, ready: (n: number) => Promise<void>, act: (n: number) => Promise<void>, acts = nEdits): Promise<number[]> {
  await page.evaluate(() => performance.clearMeasures());
  for (let n = 0; n < acts; ++n) {
    await ready(n);
    await page.waitForTimeout(pace + frame * ((n * 0.618034) % 1));
    const shown = page.evaluate(
      (name) =>
        new Promise<void>((resolve) => {
          new PerformanceObserver((list, observer) => {
            if (list.getEntriesByName(name).length === 0) return;
            observer.disconnect();
            resolve();
          }).observe({ type: "measure" });
        }),
      measure,
    );
    await act(n);
    await shown;
  }
  const all = await page.evaluate((name) => performance.getEntriesByName(name).map((one) => one.duration), measure);
  return all.sort((a, b) => a - b);
}

function told(what: string, ms: number[]): void {
  const at = (q: number): string => quantile(ms, q).toFixed(1);
  console.log(`figure: ${what}, ${ms.length} times: least ${at(0)}, p50 ${at(0.5)}, p90 ${at(0.9)}, p95 ${at(0.95)}, most ${at(1)} ms`);
}

it("a new shim is drawn within two frames: curves, picture, ledger, findings", async () => {
  const page = await bench.page();
  await bench.open(page, "valving");
  const list = page.getByRole("listbox");
  await list.focus();
  await list.press("End");
  await list.press("Enter");
  await expect.poll(() => page.getByLabel("as typed").evaluate((field) => field === document.activeElement)).toBe(true);
  // each thickness is one that the server has never computed
  const ms = await drawn(
    page,
    () => page.keyboard.press("Control+A"),
    (n) => page.keyboard.insertText(`4 x 21 x 0.${100 + n} mm`),
  );
  await page.close(); // a second tab would ask for the job anew at each edit of the next one's
  told("a shim never seen, typed to drawn", ms);
  expect(ms.length).toBeGreaterThanOrEqual(100);
  if (judged) expect(quantile(ms, 0.95)).toBeLessThanOrEqual(slowestP95);
});

/** What an edit must have drawn anew by the end of its measure: each curve, the bent picture, the ledger. */
const drawings = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const lines = (drawing: Element): string => [...drawing.querySelectorAll("path")].map((one) => one.getAttribute("d")).join();
    const drawn = [...document.querySelectorAll("main figure svg, svg.section")].map(lines);
    return [...drawn, document.querySelector("aside .numbers")?.textContent ?? ""];
  });

it("swapping a shim back and forth is drawn within two frames, kept on the disk each time", async () => {
  const page = await bench.page();
  await bench.open(page, "valving");
  const list = page.getByRole("listbox");
  await list.focus();
  await list.press("End");
  await page.getByText(/^At .* lift /).waitFor();
  const asked: string[] = [];
  page.on("request", (request) => asked.push(new URL(request.url()).pathname.replace(/^.*\//, "")));
  let before = await drawings(page);
  expect(before.length).toBe(4); // force over speed, lift over pressure, the picture, the figures
  const kept: string[] = [];
  const compared = async (n: number): Promise<void> => {
    const after = await drawings(page);
    if (n > 0) kept.push(...after.filter((one, index) => one === before[index]));
    before = after;
  };
  const ms = await drawn(page, compared, (n) => page.keyboard.press(n % 2 === 0 ? "+" : "-"));
  await page.close();
  told("a shim swapped back and forth, key to drawn", ms);
  expect(kept).toEqual([]);
  expect(asked.filter((one) => one !== "edit")).toEqual([]); // one question for each swap
  if (judged) expect(quantile(ms, 0.95)).toBeLessThanOrEqual(slowestP95);
});

it("with seven other tabs on the job an edit is drawn within two frames", async () => {
  const context = await bench.context();
  for (let n = 0; n < 7; ++n) await bench.open(await bench.tab(context), "valving");
  const page = await bench.tab(context);
  await bench.open(page, "valving");
  const list = page.getByRole("listbox");
  await list.focus();
  await list.press("End");
  await page.getByText(/^At .* lift /).waitFor();
  const ms = await drawn(page, async () => undefined, (n) => page.keyboard.press(n % 2 === 0 ? "+" : "-"), nBeside);
  await context.close();
  told("a shim swapped back and forth beside seven tabs, key to drawn", ms);
  expect(ms.length).toBe(nBeside);
  if (judged) expect(quantile(ms, 0.95)).toBeLessThanOrEqual(slowestP95);
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
        new PerformanceObserver((list) => {
          const [first] = list.getEntriesByName("first-contentful-paint");
          if (first) resolve(first.startTime);
        }).observe({ type: "paint", buffered: true });
      }),
  );
  console.log(`figure: program serves after ${served.toFixed(0)} ms, first paint ${paint.toFixed(0)} ms after that`);
  expect(paint).toBeGreaterThan(0);
  if (judged) expect(served + paint).toBeLessThanOrEqual(500);
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
  console.log(`figure: page ${(bytes / 1000).toFixed(1)} kB gzipped in ${files.size} files`);
  expect(bytes).toBeLessThanOrEqual(150_000);
});
