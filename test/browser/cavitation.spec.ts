import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench, settled } from "./bench";

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

it("a build that cavitates is found, explained, reached and mended", async () => {
  const page = await bench.page();
  await bench.open(page, "valving");
  await page.getByRole("button", { name: /^Base valve/ }).click();
  const list = page.getByRole("listbox");
  await list.focus();

  // the base valve is taken down to one thin shim
  while ((await list.getByRole("option").count()) > 1) {
    const n = await list.getByRole("option").count();
    await list.press("Home");
    await list.press("Delete");
    await expect.poll(() => list.getByRole("option").count()).toBe(n - 1);
  }
  await list.press("Home");
  await list.press("Enter");
  await page.getByLabel("as typed").fill("1 x 19 x 0.10 mm");
  await page.getByLabel("as typed").press("Enter");

  // it is said beside the work, at the station, and in the figures with both values
  const found = page.locator("aside li.stop", { hasText: "F201" });
  await found.waitFor();
  expect(await found.textContent()).toMatch(/air comes out of the oil from/);
  expect(await found.textContent()).toMatch(/Make the compression stack of the foot valve stiffer/);
  const margin = page.locator("aside .margins > div", { hasText: "Margin to cavitation, compression" });
  expect(await margin.textContent()).toMatch(/stop/);
  expect(await margin.textContent()).toMatch(/\u2212[\d.]+ from \d/);
  expect(await page.getByRole("link", { name: /Valving/ }).textContent()).toMatch(/stop/);

  // and it leads there from any station
  await page.getByRole("link", { name: /Rider/ }).click();
  await found.getByRole("button", { name: "Go there" }).click();
  await expect.poll(() => page.getByRole("button", { name: /^Base valve/ }).getAttribute("aria-pressed")).toBe("true");

  // mended with shims again
  const entry = page.getByLabel(/new entry/);
  for (const shims of ["10 x 19 x 0.15 mm", "4 x 18 x 0.15 mm"]) {
    const n = await list.getByRole("option").count();
    await entry.fill(shims);
    await entry.press("Enter");
    await expect.poll(() => list.getByRole("option").count()).toBe(n + 1);
  }
  await settled(page);
  await expect.poll(() => found.count()).toBe(0);
  expect(await margin.textContent()).toMatch(/\+[\d.]+ from \u2212?\d/);
});
