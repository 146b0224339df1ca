import { mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Bench, type Size, sizes, type Theme } from "./bench";
import { stations } from "./stations";

const folder = fileURLToPath(new URL("pictures", import.meta.url));

let bench: Bench;
beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

it("the picture of the README: what one more face shim did", async () => {
  const page = await bench.page("laptop", "light");
  await bench.open(page, "valving");
  await page.getByRole("button", { name: /^Base valve/ }).click();
  const list = page.getByRole("listbox");
  await list.focus();
  await list.press("End");
  await list.press("+");
  await page.locator("aside .change").first().waitFor();
  await page.mouse.move(680, 240);
  await page.waitForTimeout(600); // the slider's stack
  const picture = await page.screenshot({ path: `${folder}/workbench.png` });
  expect(picture.length).toBeLessThan(200_000);
});

describe.each<Theme>(["light", "dark"])("a picture of each station for the eye, %s", (theme) => {
  it.each(Object.keys(sizes) as Size[])("on a %s", async (size) => {
    const page = await bench.page(size, theme);
    for (const station of stations) {
      await bench.open(page, station);
      await page.evaluate(() => document.fonts.ready);
      await page.waitForTimeout(station === "build" ? 1500 : 300); // the packet in its frame, the slider's stack
      const picture = await page.screenshot({ path: `${folder}/${station}-${size}-${theme}.png` });
      expect(picture.length).toBeGreaterThan(10_000); // an empty page is smaller
    }
  });
});
