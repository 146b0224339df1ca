import type { Page } from "playwright-core";
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

/** What stays while the page scrolls: from the top, from the bottom, and how much of the view that is. */
const staying = (page: Page): Promise<{ top: number; bottom: number; share: number }> =>
  page.evaluate(() => {
    let [top, bottom] = [0, innerHeight];
    for (const one of document.querySelectorAll("body *")) {
      const { position } = getComputedStyle(one);
      const box = one.getBoundingClientRect();
      if ((position !== "fixed" && position !== "sticky") || box.width < innerWidth / 2 || box.height === 0) continue;
      if (box.top + box.bottom < innerHeight) top = Math.max(top, box.bottom);
      else bottom = Math.min(bottom, box.top);
    }
    return { top, bottom, share: 1 - (bottom - top) / innerHeight };
  });

it.each([
  { width: 360, height: 740, most: 0.215 }, // 160 px
  { width: 740, height: 360, most: 0.36 }, // on its side
  { width: 768, height: 1024, most: 0.26 },
])("of a view of $width x $height what stays in view takes no more than its share, at every station", async ({ width, height, most }) => {
  const page = await bench.page("phone");
  await page.setViewportSize({ width, height });
  for (const station of stations) {
    await bench.open(page, station);
    const share = async (): Promise<number> => {
      await page.evaluate(() => scrollTo(0, 400)); // until what comes later made the page long enough
      return (await staying(page)).share;
    };
    await expect.poll(share, { message: station }).toBeLessThan(most);
    expect(await share(), station).toBeGreaterThan(0.1); // the line of stations and the figures are there
  }
});

it("the strip of a phone shows each figure whole and beside the others, and no change moves it", async () => {
  const page = await bench.page("phone");
  await bench.open(page, "valving");
  const shown = () =>
    page.locator("aside").evaluate((strip) => {
      const outer = strip.getBoundingClientRect();
      const boxes = [...strip.querySelectorAll(".value, .speed")].map((one) => ({ text: one.textContent ?? "", box: one.getBoundingClientRect() }));
      const isIn = ({ box }: { box: DOMRect }): boolean => box.width > 0 && box.left >= 0 && box.right <= innerWidth && box.top >= outer.top && box.bottom <= innerHeight;
      const hit = (a: DOMRect, b: DOMRect): boolean => a.left < b.right && b.left < a.right && a.top < b.bottom - 1 && b.top < a.bottom - 1;
      return {
        n: boxes.length,
        outside: boxes.filter((one) => !isIn(one)).map((one) => one.text),
        overlaid: boxes.filter((one, k) => boxes.some((other, j) => j > k && hit(one.box, other.box))).map((one) => one.text),
        places: boxes.map(({ box }) => `${box.right.toFixed(0)} ${box.top.toFixed(0)}`),
        cut: [...strip.querySelectorAll(".force, dd")].filter((one) => one.scrollHeight > one.clientHeight + 2).map((one) => one.textContent ?? ""),
        top: outer.top,
      };
    });
  const before = await shown();
  expect(before).toMatchObject({ n: 16, outside: [], overlaid: [], cut: [] }); // four speeds, eight forces, four margins
  const list = page.getByRole("listbox");
  await list.focus();
  await list.press("End");
  for (let n = 0; n < 6; ++n) await list.press("+");
  await expect.poll(() => page.locator("aside .change").count()).toBeGreaterThan(3);
  const after = await shown();
  expect(after).toMatchObject({ n: 16, outside: [], overlaid: [], cut: [], top: before.top });
  expect(after.places.slice(0, 12)).toEqual(before.places.slice(0, 12));
  await page.keyboard.press("Control+z");
});

it("a plot scrolled to lies whole between the stations and the strip of a phone", async () => {
  const page = await bench.page("phone");
  for (const station of ["valving", "springs", "effect"]) {
    await bench.open(page, station);
    if (station === "effect") {
      await page.getByRole("button", { name: "Run on the bench" }).click();
      await page.getByRole("group", { name: "shown of the bench" }).waitFor({ timeout: 60_000 });
    }
    const plots = page.locator(".plot figure");
    await plots.first().waitFor();
    const nPlots = await plots.count();
    expect(nPlots, station).toBeGreaterThan(station === "effect" ? 4 : 0);
    for (let k = 0; k < nPlots; ++k) {
      const plot = plots.nth(k);
      const title = (await plot.locator(".title").textContent()) ?? "";
      // what comes into view is laid out then: the second time it stays where it is
      for (let n = 0; n < 3; ++n) {
        await plot.evaluate((one) => one.scrollIntoView({ block: "start" }));
        await page.waitForTimeout(60);
      }
      const box = (await plot.boundingBox())!;
      const { top, bottom } = await staying(page);
      expect(box.y, `${station}: ${title}`).toBeGreaterThanOrEqual(top - 1);
      expect(box.y + box.height, `${station}: ${title}`).toBeLessThanOrEqual(bottom + 1);
    }
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
  await page.getByRole("button", { name: /Show all/ }).click();
  expect(await page.locator("aside .findings").isVisible()).toBe(true);
  await page.getByRole("button", { name: /Hide/ }).click();
  expect(await page.locator("aside .findings").isVisible()).toBe(false);
});
