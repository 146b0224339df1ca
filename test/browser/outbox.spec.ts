import { cpSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page, Route } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench, settled, type } from "./bench";

const friction = "unit[0].seal_friction";

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
  cpSync(join(bench.program.folder, "enduro-fork.job.toml"), join(bench.program.folder, "other.job.toml"));
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

/** Holds back edits on their way to the program, or their answers on the way back, until let go. */
async function held(page: Page, what: "requests" | "answers"): Promise<{ reached: Promise<void>; letGo(): void }> {
  let letGo = (): void => undefined;
  let reach = (): void => undefined;
  const gate = new Promise<void>((resolve) => (letGo = resolve));
  const reached = new Promise<void>((resolve) => (reach = resolve));
  await page.route(/\/edit\?/, async (route: Route) => {
    if (what === "requests") {
      reach();
      await gate;
      return route.continue();
    }
    const response = await route.fetch();
    reach();
    await gate;
    await route.fulfill({ response }).catch(() => undefined); // the page may be gone by then
  });
  return { reached, letGo };
}

async function openJob(page: Page, name: string): Promise<void> {
  await page.getByRole("button", { name: /jobs in this folder/ }).click();
  await page.getByRole("button", { name: new RegExp(name) }).click();
  await page.getByText(`${name} ·`).first().waitFor();
}

const complaintsOn = (page: Page): Promise<string[]> =>
  page.getByLabel(/^Complaints? \d+$/).evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value));

it.each(["requests", "answers"] as const)("an edit under way while the hand goes to another job belongs to its job (%s held back)", async (what) => {
  const page = await bench.page();
  await bench.open(page, "rider");
  await openJob(page, "enduro-fork.job.toml");
  await page.getByLabel(/Complaints?: new entry/).waitFor();
  const complaints = () => complaintsOn(page);
  const before = (await complaints()).length;

  const { reached, letGo } = await held(page, what);
  const entry = page.getByLabel(/Complaints?: new entry/);
  await entry.fill(`harsh on roots, ${what}`);
  await entry.press("Enter");
  await reached;
  await openJob(page, "other.job.toml");
  const other = page.getByLabel(/Complaints?: new entry/);
  await other.waitFor();
  const inOther = await complaints();
  await other.fill(`dives on brakes, ${what}`);
  await other.press("Enter");
  letGo();
  await settled(page);
  await expect.poll(complaints).toEqual([...inOther, `dives on brakes, ${what}`]);

  await openJob(page, "enduro-fork.job.toml");
  await entry.waitFor();
  await settled(page);
  const now = await complaints();
  expect(now.length).toBe(before + 1);
  expect(now.at(-1)).toBe(`harsh on roots, ${what}`);
});

it("what two tabs could not send yet is kept by each, and is sent when both are gone", async () => {
  const context = await bench.context();
  const first = await bench.tab(context);
  const second = await bench.tab(context);
  await bench.open(first, "rider");
  await bench.open(second, "rider");
  await bench.program.kill();
  for (const [page, words] of [[first, "rattles"], [second, "leaks"]] as const) {
    await page.getByText("The program does not answer.", { exact: true }).waitFor();
    const entry = page.getByLabel(/Complaints?: new entry/);
    await entry.fill(words);
    await entry.press("Enter");
  }
  await first.close(); // with it goes all but what lies in the browser's storage
  await second.close();

  await bench.program.start();
  const again = await bench.tab(context);
  await bench.open(again, "rider");
  await settled(again);
  await expect.poll(() => complaintsOn(again)).toEqual(expect.arrayContaining(["rattles", "leaks"]));
  const all = await complaintsOn(again);
  expect(new Set(all).size).toBe(all.length);
});

it("what the program took but could not answer for is not done twice, whatever came after it", async () => {
  const context = await bench.context();
  const page = await bench.tab(context);
  await bench.open(page, "rider");
  const { reached } = await held(page, "answers");
  const entry = page.getByLabel(/Complaints?: new entry/);
  await entry.fill("knocks when it tops out");
  await entry.press("Enter");
  await reached; // it is in the journal, and the page never hears of it
  await page.close();

  const stranger = await bench.page(); // another browser does something else meanwhile
  await bench.open(stranger, "hardware");
  await type(stranger, friction, "33 N");
  await settled(stranger);

  const again = await bench.tab(context);
  await bench.open(again, "rider");
  await settled(again);
  expect((await complaintsOn(again)).filter((one) => one === "knocks when it tops out").length).toBe(1);
});

it("what was left of a job that is not open is sent too", async () => {
  const context = await bench.context();
  const page = await bench.tab(context);
  await bench.open(page, "hardware");
  await openJob(page, "other.job.toml");
  await bench.program.kill();
  await page.getByText("The program does not answer.", { exact: true }).waitFor();
  await page.getByRole("link", { name: /Hardware/ }).click();
  await type(page, friction, "35 N");
  await page.close();

  await bench.program.start();
  const again = await bench.tab(context);
  await bench.open(again, "hardware"); // the job named at the start, which is not the other one
  await settled(again);
  await openJob(again, "other.job.toml");
  await again.keyboard.press("Control+s");
  await expect.poll(() => readFileSync(join(bench.program.folder, "other.job.toml"), "utf8")).toContain('"35 N"');
});
