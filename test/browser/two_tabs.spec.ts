import { appendFileSync, readFileSync } from "node:fs";
import { join } from "node:path";
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
const file = (): string => join(bench.program.folder, "enduro-fork.job.toml");

it("two tabs on one job follow each other, and neither overwrites the other", async () => {
  const context = await bench.context();
  const first = await bench.tab(context);
  const second = await bench.tab(context);
  await bench.open(first, "hardware");
  await bench.open(second, "hardware");

  await type(first, "unit[0].seal_friction", "18 N");
  await expect.poll(() => field(second, "unit[0].seal_friction").inputValue()).toBe("18 N");

  await Promise.all([type(first, "unit[0].travel", "302 mm"), type(second, "unit[0].reservoir.stroke", "84 mm")]);
  await settled(first);
  for (const page of [first, second]) {
    await expect.poll(() => field(page, "unit[0].travel").inputValue()).toBe("302 mm");
    await expect.poll(() => field(page, "unit[0].reservoir.stroke").inputValue()).toBe("84 mm");
  }
  await second.getByRole("button", { name: "Undo" }).click();
  await second.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => field(first, "unit[0].travel").inputValue()).toBe("300 mm");
});

it("says that the file changed underneath, and offers both ways out", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  appendFileSync(file(), "\n# written by another hand\n");
  await page.getByText("Another program has changed the file.", { exact: true }).waitFor();

  await page.getByRole("button", { name: "Show both texts" }).click();
  await page.getByRole("button", { name: "Load the file" }).click();
  await expect.poll(() => page.getByText("Another program has changed the file.", { exact: true }).count()).toBe(0);
  await page.getByRole("button", { name: "Text", exact: true }).click();
  expect(await page.getByLabel("Text of the job file").inputValue()).toContain("written by another hand");
  await page.getByRole("button", { name: "Text", exact: true }).click();

  await type(page, "unit[0].seal_friction", "19 N");
  await settled(page);
  appendFileSync(file(), "# and once more\n");
  await page.getByText("Another program has changed the file.", { exact: true }).waitFor();
  await page.getByRole("button", { name: "Show both texts" }).click();
  await page.getByRole("button", { name: "Write the bench over it" }).click();
  await expect.poll(() => readFileSync(file(), "utf8")).toContain("19 N");
  expect(readFileSync(file(), "utf8")).not.toContain("once more");
  expect(readFileSync(file(), "utf8")).toContain("# carried by the front springs"); // remarks stay
});

it("a save that meets a changed file writes nothing and lets the hand choose", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  await type(page, "unit[0].seal_friction", "23 N");
  await settled(page);
  appendFileSync(file(), "# just now\n");
  await page.keyboard.press("Control+s");
  await page.getByText("Another program has changed the file.", { exact: true }).waitFor();
  // the browser notes the refused save in its console by itself: that line, and no other, is wanted here
  expect(bench.faults.splice(0)).toEqual([expect.stringContaining("409 (Conflict)")]);
  expect(readFileSync(file(), "utf8")).toContain("# just now");
  expect(readFileSync(file(), "utf8")).not.toContain("23 N");
  await page.getByRole("button", { name: "Write the bench over it" }).click(); // the page shows both texts by itself
  await expect.poll(() => readFileSync(file(), "utf8")).toContain("23 N");
});
