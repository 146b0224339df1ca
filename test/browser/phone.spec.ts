import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench, type Size } from "./bench";
import { stations } from "./stations";

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

it.each<Size>(["phone", "tablet", "laptop"])("nothing runs over the side on a %s, and the figures are in view at every station", async (size) => {
  const page = await bench.page(size);
  for (const station of stations) {
    await bench.open(page, station);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(over, station).toBeLessThanOrEqual(0);
    await page.mouse.wheel(0, 4000);
    for (const text of [/^1220|^1\d\d\d/, /bar$/]) {
      expect(await page.locator("aside .value", { hasText: text }).first().isVisible(), `${station} ${text}`).toBe(true);
    }
    const box = await page.locator("aside .value").first().boundingBox();
    const height = page.viewportSize()?.height ?? 0;
    expect(box && box.y >= 0 && box.y < height, station).toBe(true);
  }
});

it("every target is large enough for a thumb in a glove", async () => {
  const page = await bench.page("phone");
  for (const station of stations) {
    await bench.open(page, station);
    const small = await page.locator("button, a[href], input:not([type=radio], [type=checkbox]), label:has([type=checkbox]), select, summary, [role=option]").evaluateAll((all) =>
      all
        .filter((one) => one.checkVisibility() && !one.closest(".skip") && !one.matches(".skip"))
        .map((one) => ({ box: one.getBoundingClientRect(), name: `${one.tagName} ${one.textContent?.trim().slice(0, 30)}` }))
        .filter(({ box }) => box.width > 0 && (box.height < 43.5 || box.width < 43.5))
        .map(({ box, name }) => `${name} ${box.width.toFixed(0)} x ${box.height.toFixed(0)}`),
    );
    expect(small, station).toEqual([]);
  }
});

it("the strip is pulled up with a tap and put away again", async () => {
  const page = await bench.page("phone");
  await bench.open(page, "valving");
  expect(await page.locator("aside .findings").isVisible()).toBe(false);
  await page.getByRole("button", { name: /All of it/ }).click();
  expect(await page.locator("aside .findings").isVisible()).toBe(true);
  await page.getByRole("button", { name: /Put away/ }).click();
  expect(await page.locator("aside .findings").isVisible()).toBe(false);
});
