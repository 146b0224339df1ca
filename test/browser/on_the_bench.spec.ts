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

it("the damper is driven on the bench: loops, what each run did, and a word when the job has changed since", async () => {
  const page = await bench.page();
  await bench.open(page, "effect");
  await page.getByRole("button", { name: "Run on the bench" }).click();
  const table = page.getByRole("table", { name: "The last cycle of each run" });
  await table.waitFor({ timeout: 30_000 });
  const nRuns = await table.locator("tbody tr").count();
  expect(nRuns).toBeGreaterThan(1);
  // force grows with the drive's speed
  const most = (await table.locator("tbody td:nth-child(2)").allTextContents()).slice(0, 3).map(Number);
  expect(most[2]).toBeGreaterThan(most[0]!);

  const loops = page.getByRole("slider", { name: "Force over travel" });
  await loops.focus();
  await page.keyboard.press("ArrowRight");
  expect(await loops.getAttribute("aria-valuetext")).toMatch(/mm: .*\u2009N/);
  await page.getByRole("button", { name: "over speed" }).click();
  await page.getByRole("slider", { name: "Force over speed" }).waitFor();

  // one run less
  const chips = page.getByRole("group", { name: "runs drawn" }).getByRole("button");
  await chips.first().click();
  expect(await chips.first().getAttribute("aria-pressed")).toBe("false");

  // the job goes on: the loops say that they are of before
  expect(await page.getByText("From an earlier state").count()).toBe(0);
  await page.getByRole("link", { name: /Valving/ }).click();
  const list = page.getByRole("listbox");
  await list.focus();
  await page.keyboard.press("End");
  await page.keyboard.press("+");
  await settled(page);
  await page.getByRole("link", { name: /Effect/ }).click();
  await page.getByText("From an earlier state of this job").waitFor();
});

it("a page that is loaded again has its bench result, and says when the job has changed since", async () => {
  const page = await bench.page();
  await bench.open(page, "effect");
  await page.getByRole("button", { name: "Run on the bench" }).click();
  const table = page.getByRole("table", { name: "The last cycle of each run" });
  await table.waitFor({ timeout: 30_000 });
  const forces = await table.locator("tbody td:nth-child(2)").allTextContents();

  await page.reload();
  await table.waitFor();
  expect(await table.locator("tbody td:nth-child(2)").allTextContents()).toEqual(forces);
  expect(await page.getByText("From an earlier state").count()).toBe(0);

  await page.getByRole("button", { name: /^Undo/ }).click();
  await page.reload();
  await page.getByText("From an earlier state of this job").waitFor();
  expect(await table.locator("tbody td:nth-child(2)").allTextContents()).toEqual(forces);

  // another start of the program knows nothing of the run, and the page asks it for nothing
  await bench.program.kill();
  await bench.program.start();
  await bench.open(page, "effect");
  await page.getByText("It takes a few seconds").waitFor();
});
