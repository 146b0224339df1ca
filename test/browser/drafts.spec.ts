import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, it } from "vitest";
import { Bench, settled } from "./bench";

let bench: Bench;
let context: BrowserContext;
let page: Page;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
beforeEach(async () => {
  context = await bench.context();
  page = await bench.tab(context);
  await bench.open(page, "rider");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});
const area = () => page.getByLabel("Text of the job file");
const text = () => page.getByRole("button", { name: "Text", exact: true });
const complaint = () => page.getByLabel(/Complaints?: new entry/);
const shim = () => page.getByLabel(/^new entry, count/);

/** The page ends as with its browser, and the program with it. */
async function killed(): Promise<void> {
  await page.close();
  await bench.program.kill();
  await bench.program.start();
  page = await bench.tab(context);
  await bench.open(page, "rider");
}

it("the text of the file, half typed, outlives a change of view, a reload and a kill", async () => {
  await text().click();
  const before = await area().inputValue();
  await area().fill(`${before}\n# a remark that is not finis`);
  await page.getByRole("link", { name: /Hardware/ }).click();
  await text().click();
  expect(await area().inputValue()).toContain("not finis");
  await page.reload();
  await text().click();
  await expect.poll(() => area().inputValue()).toContain("not finis");
  await killed();
  await text().click();
  await expect.poll(() => area().inputValue()).toContain("not finis");

  await page.getByRole("button", { name: "Use this text" }).click();
  await settled(page);
  await page.reload();
  await text().click();
  await expect.poll(() => area().inputValue()).toContain("not finis"); // now the job's
  expect(await page.getByRole("button", { name: "Use this text" }).isDisabled()).toBe(true);
  await expect.poll(() => page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes("draft")))).toEqual([]);
});

it("new entries, half typed, outlive a change of view, a reload and a kill", async () => {
  await complaint().fill("packs dow");
  await page.getByRole("link", { name: /Valving/ }).click();
  await shim().fill("2 x 21 x");
  await page.getByRole("button", { name: /jobs in this folder/ }).click();
  await page.getByLabel("Name of the job").fill("Rider 9, wet");
  for (const again of [() => page.reload(), killed]) {
    await again();
    await page.getByRole("link", { name: /Rider/ }).click();
    await expect.poll(() => complaint().inputValue()).toBe("packs dow");
    await page.getByRole("link", { name: /Valving/ }).click();
    await expect.poll(() => shim().inputValue()).toBe("2 x 21 x");
    await page.getByRole("button", { name: /jobs in this folder/ }).click();
    await expect.poll(() => page.getByLabel("Name of the job").inputValue()).toBe("Rider 9, wet");
  }
  await page.getByRole("link", { name: /Rider/ }).click();
  await complaint().press("Enter");
  await settled(page);
  expect(await complaint().inputValue()).toBe("");
});

it("two tabs that type into one field keep both texts, and a closed one's come up in turn", async () => {
  const other = await bench.tab(context);
  await bench.open(other, "rider");
  await complaint().fill("one wor");
  await other.getByLabel(/Complaints?: new entry/).fill("other wor");
  await other.close();
  await page.close();
  page = await bench.tab(context);
  await bench.open(page, "rider");
  await expect.poll(() => complaint().inputValue()).toMatch(/wor/);
  const first = await complaint().inputValue();
  await complaint().press("Enter");
  await settled(page);
  await expect.poll(() => complaint().inputValue()).toBe(first === "one wor" ? "other wor" : "one wor");
});
