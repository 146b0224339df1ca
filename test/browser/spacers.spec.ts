import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench, settled, type } from "./bench";

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

it("spacers are chosen for a thinner washer, and written down", async () => {
  const page = await bench.page();
  await bench.open(page, "fit");
  const facts = page.locator(".facts");
  expect(await facts.textContent()).toMatch(/Spacers to use\s*none/);

  await type(page, "unit[0].piston_valve.pieces[0].height", "0.7 mm");
  await expect.poll(() => facts.textContent()).toMatch(/1 × 6x1\.0/);
  await page.getByText("Put on one 0.99\u2009mm spacer").first().waitFor();

  // the 1.0 mm ones are wanted elsewhere: the thin ones make it up
  await page.getByRole("checkbox", { name: /^6x1\.0/ }).uncheck();
  await settled(page);
  await expect.poll(() => facts.textContent()).toMatch(/\d × 6x0\.3/);
  expect(await facts.textContent()).not.toContain("6x1.0");
  expect(await facts.textContent()).toMatch(/Turns of thread engaged\s*5\.87/);

  // and that stands in the file, where another may read it
  await page.keyboard.press("Control+s");
  await expect.poll(() => readFileSync(join(bench.program.folder, "enduro-fork.job.toml"), "utf8")).toMatch(/spacers\s*=\s*\["6x0\.1",\s*"6x0\.3"\]/);
});
