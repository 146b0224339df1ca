import { appendFileSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { violations } from "./axe";
import { Bench, field, settled, type Size, sizes, type, type Theme } from "./bench";
import { stations } from "./stations";

const pictures = fileURLToPath(new URL("pictures", import.meta.url));
const friction = "unit[0].seal_friction";

let bench: Bench;
beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

describe.each(Object.keys(sizes) as Size[])("on a %s", (size) => {
  it.each<Theme>(["light", "dark"])("notices stand in view at every station, however far down the page, %s", async (theme) => {
    const page = await bench.page(size, theme);
    await bench.open(page, "hardware");
    await type(page, "unit[0].travel", `3${theme.length}${size.length} mm`); // not saved
    await type(page, friction, "17 wt"); // no such unit
    await settled(page);
    appendFileSync(join(bench.program.folder, "enduro-fork.job.toml"), "# another hand\n");
    const region = page.getByRole("region", { name: "Notices" });
    await region.getByText("Another program has changed the file.", { exact: true }).waitFor();
    for (const station of stations) {
      await page.goto(`${bench.program.address}/#${station}`);
      await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
      const box = await region.boundingBox();
      expect(box?.y).toBeGreaterThanOrEqual(0);
      expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual(sizes[size].height);
      expect(box?.height).toBeLessThanOrEqual(72);
      expect(await page.locator("main").getByText("The figures and drawings here are from the last state without faults.").count()).toBe(1);
    }
    await page.goto(`${bench.program.address}/#hardware`);
    await page.evaluate(() => scrollTo(0, 0));
    expect(await violations(page)).toEqual([]);
    await page.screenshot({ path: `${pictures}/notices-${size}-${theme}.png` });
    await region.getByRole("button", { name: /more|More/ }).first().click();
    await region.getByText("One value has a fault.", { exact: true }).waitFor();
    expect(await violations(page)).toEqual([]);
    await region.getByRole("button", { name: "Show both texts" }).click();
    await page.locator("main table tr.differs").first().waitFor();
    expect(await violations(page)).toEqual([]);
    await page.screenshot({ path: `${pictures}/compare-${size}-${theme}.png` });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(sizes[size].width);
    await page.getByRole("button", { name: "Load the file" }).click();
    await expect.poll(() => region.getByText("Another program has changed the file.", { exact: true }).count()).toBe(0);
    await type(page, friction, "17 N");
    await settled(page);
    await page.keyboard.press("Control+s");
    await page.close();
  });
});

it("figures that are older than what is typed are marked, and no longer when they are not", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  await type(page, friction, "18 N");
  await settled(page);
  const mark = page.locator("aside").getByText("Older than what you typed");
  expect(await mark.count()).toBe(0);
  await bench.program.kill();
  await page.getByText("The program does not answer.", { exact: true }).waitFor();
  expect(await mark.count()).toBe(0); // nothing is typed yet
  await type(page, friction, "28 N");
  await mark.waitFor();
  await page.getByRole("link", { name: /Effect/ }).click();
  await page.getByText("The figures and drawings here are older than what you typed.").waitFor();
  await bench.program.start();
  await settled(page);
  await expect.poll(() => mark.count()).toBe(0);
});

it("one live region tells the last thing that happened, again when it happens again", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  const live = page.locator("[aria-live]");
  const said = () => page.getByRole("status").textContent();
  expect(await live.count()).toBe(1);
  for (const words of ["31 N", "32 N"]) {
    await type(page, friction, words);
    await settled(page);
    await expect.poll(said).toMatch(/^Kept: .*seal friction/i);
  }
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(said).toMatch(/^Undone: .*seal friction/i);
  const once = await said();
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(said).not.toBe(once); // or a reader would keep silent
  expect(await said()).toMatch(/^Undone: .*seal friction/i);
  await page.getByRole("button", { name: "Redo" }).click();
  await expect.poll(said).toMatch(/^Redone: .*seal friction/i);
  await page.keyboard.press("Control+s");
  await expect.poll(said).toMatch(/^Saved to the file\./);
  await type(page, friction, "31 wt");
  await settled(page);
  await expect.poll(said).toMatch(/^One value has a fault\./);
  await bench.program.kill();
  await expect.poll(said).toMatch(/^The program does not answer\./);
  await bench.program.start();
  await expect.poll(said).toMatch(/^The program answers again\./);
  await type(page, friction, "33 N");
  await settled(page);
  await expect.poll(said).toMatch(/^Kept: /);
  expect(await field(page, friction).inputValue()).toBe("33 N");
});
