import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench, field, settled, type } from "./bench";

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});
const friction = "unit[0].seal_friction";

// more than the six connections that a browser holds to one address
async function eightTabs(prepare: (page: Page) => Promise<void>): Promise<Page[]> {
  const context = await bench.context();
  const pages: Page[] = [];
  for (let n = 0; n < 8; ++n) {
    const page = await bench.tab(context);
    page.setDefaultTimeout(20_000);
    await prepare(page);
    await bench.open(page, "hardware");
    pages.push(page);
  }
  return pages;
}

async function edited(page: Page, text: string): Promise<void> {
  await type(page, friction, text);
  await settled(page);
}
async function shows(pages: readonly Page[], text: string): Promise<void> {
  for (const page of pages) await expect.poll(() => field(page, friction).inputValue()).toBe(text);
}

it("eight tabs on one job all work, and each hears of what is done in the others", async () => {
  const pages = await eightTabs(async () => undefined);
  for (const [n, page] of pages.entries()) await edited(page, `${20 + n} N`);
  await shows(pages, "27 N");

  // the tab that heard for all of them goes: another one does from here on
  await pages[0]?.close();
  const left = pages.slice(1);
  await edited(left[3] as Page, "40 N");
  await shows(left, "40 N");

  await bench.program.kill();
  for (const page of left) await page.getByText("The program does not answer.", { exact: true }).waitFor();
  await bench.program.start();
  for (const page of left) await expect.poll(() => page.getByText("The program does not answer.", { exact: true }).count()).toBe(0);
  await edited(left[6] as Page, "41 N");
  await shows(left, "41 N");
  for (const page of left) await page.close();
});

it("without the browser's locks, as over an open network, a tab hears while it is looked at", async () => {
  const pages = await eightTabs(async (page) => {
    await page.addInitScript(() => {
      Object.defineProperty(navigator, "locks", { value: undefined });
      Object.defineProperty(crypto, "randomUUID", { value: undefined });
      const shown = { hidden: false };
      Object.defineProperty(document, "hidden", { get: () => shown.hidden });
      Object.defineProperty(document, "visibilityState", { get: () => (shown.hidden ? "hidden" : "visible") });
      addEventListener("test: turn away", () => ((shown.hidden = true), document.dispatchEvent(new Event("visibilitychange"))));
      addEventListener("test: look", () => ((shown.hidden = false), document.dispatchEvent(new Event("visibilitychange"))));
    });
    for (const other of page.context().pages()) if (other !== page) await turn(other, "turn away");
  });
  const last = pages.at(-1) as Page;
  await edited(last, "30 N");
  const first = pages[0] as Page;
  await turn(last, "turn away");
  await turn(first, "look");
  await shows([first], "30 N");
});

async function turn(page: Page, how: "look" | "turn away"): Promise<void> {
  await page.evaluate((word) => dispatchEvent(new Event(`test: ${word}`)), how);
}
