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

it("spacers are chosen for a thinner washer, and written down", async () => {
  const page = await bench.page();
  await bench.open(page, "fit");
  const facts = page.locator(".facts");
  expect(await facts.textContent()).toMatch(/Spacers to use\s*none/);

  await type(page, "unit[0].piston_valve.pieces[0].height", "1.2 mm");
  await expect.poll(() => facts.textContent()).toMatch(/1 × 6x1\.0/);
  await page.getByText("Put on one 0.99\u2009mm spacer").first().waitFor();

  // written into the file in place of the choice, the advice is taken
  const pieces = page.locator('[data-path^="unit[0].piston_valve.pieces"]');
  const last = await pieces.evaluateAll((all) => all.find((one) => (one as HTMLInputElement).value === "spacers")?.getAttribute("data-path"));
  expect(last).toBeTruthy();
  await type(page, String(last), "6x1.0");
  await settled(page);
  await expect.poll(() => page.getByText("Put on one 0.99\u2009mm spacer").count()).toBe(0);
  expect(await field(page, String(last)).inputValue()).toBe("6x1.0");
  expect(await page.locator("aside .margins").textContent()).toMatch(/Turns of thread that hold/);
});
