import { afterAll, beforeAll, expect, it } from "vitest";
import { fileURLToPath } from "node:url";
import { violations } from "./axe";
import { Bench, settled, type Size, sizes } from "./bench";

const folder = fileURLToPath(new URL("pictures", import.meta.url));

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("trail-fork"); // its leg goes on the bench with the spring in
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

it.each(Object.keys(sizes) as Size[])("a step and the rod let go are shown over time, with what happened by number, on a %s", async (size) => {
  const page = await bench.page(size);
  await bench.open(page, "effect");
  await page.getByRole("button", { name: "Run on the bench" }).click();
  const over = page.getByRole("group", { name: "shown of the bench" });
  await over.waitFor({ timeout: 30_000 });
  await page.getByText(/^The springs are fitted \(coil and top-out\)/).waitFor();

  // the step with its events beside their numbers
  await over.getByRole("button", { name: /^step/ }).click();
  await page.getByRole("slider", { name: /^Force over time: step/ }).waitFor();
  const happened = page.getByRole("table", { name: "What happens" });
  const told = await happened.locator("tbody td:last-child").allTextContents();
  expect(told).toContain("the foot valve opens in compression");
  expect(await happened.locator("tbody th").allTextContents()).toEqual(told.map((_, k) => String(k + 1)));
  await happened.scrollIntoViewIfNeeded();
  await page.screenshot({ path: `${folder}/over-time-step-${size}.png` });

  // what the rod does when it is let go, and which force speeds it up
  await over.getByRole("button", { name: "let go, travel" }).click();
  await page.getByRole("slider", { name: /^Let go: travel over time/ }).waitFor();
  await over.getByRole("button", { name: "let go, force" }).click();
  const force = page.getByRole("slider", { name: "Let go: force that speeds the rod up" });
  await force.focus();
  await page.keyboard.press("ArrowRight");
  expect(await force.getAttribute("aria-valuetext")).toMatch(/well bled .*\u2009N/);
  await page.screenshot({ path: `${folder}/over-time-let-go-${size}.png` });

  // nothing hangs over the edge, and nothing is out of reach
  expect(await violations(page)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
});

it("the damper alone is the whole loop with the springs' force taken off", async () => {
  const page = await bench.page();
  await bench.open(page, "effect");
  await page.getByRole("button", { name: "Run on the bench" }).click();
  const over = page.getByRole("group", { name: "force over" });
  await over.waitFor({ timeout: 30_000 });
  await page.getByRole("slider", { name: "Force of damper and springs over travel" }).waitFor();
  await page.screenshot({ path: `${folder}/bench-damper-and-springs.png` });
  await over.getByRole("button", { name: "damper alone, over travel" }).click();
  await page.getByRole("slider", { name: "Force of the damper alone over travel" }).waitFor();
  await page.screenshot({ path: `${folder}/bench-damper-alone.png` });

  // of the fastest run the whole pushes harder, by the spring at that place
  const cells = page.getByRole("table", { name: "The last cycle of each run" }).locator("tbody tr:nth-child(3) td");
  const [whole, , alone] = (await cells.allTextContents()).map((text) => Number(text.replaceAll(",", "").replace("\u2212", "-")));
  expect(whole! - alone!).toBeGreaterThan(100);
});

it("the springs are put in by hand, also where the job says nothing of a bench yet", async () => {
  const shock = await Bench.set("enduro-shock");
  try {
    const page = await shock.page();
    await shock.open(page, "effect");
    await page.getByRole("button", { name: "Run on the bench" }).click();
    await page.getByText(/^The springs are not fitted: /).waitFor({ timeout: 30_000 });
    await page.getByLabel("with springs").selectOption("yes");
    await settled(page);
    await page.getByText("From an earlier state of this job").waitFor();
    await page.getByRole("button", { name: "Run on the bench" }).click();
    await page.getByText(/^The springs are fitted \(coil and bump stop\)/).waitFor({ timeout: 30_000 });
    expect(shock.faults).toEqual([]);
  } finally {
    await shock.end();
  }
});
