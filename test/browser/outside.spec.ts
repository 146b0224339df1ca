import { appendFileSync, copyFileSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from "vitest";
import { Bench, field, settled, type } from "./bench";

const friction = "unit[0].seal_friction";

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
beforeEach(async () => {
  page = await bench.page();
  await bench.open(page, "hardware");
});
afterEach(async () => {
  for (const context of bench.browser.contexts()) await context.close(); // each of them would have its say
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});
const file = (): string => join(bench.program.folder, "enduro-fork.job.toml");
const notices = () => page.getByRole("region", { name: "Notices" });
const button = (name: string) => page.getByRole("button", { name });

it("writes over what another program wrote only when both texts were shown, and undo brings it back", async () => {
  await type(page, friction, "16 N");
  await settled(page);
  appendFileSync(file(), "# written by another hand\n");
  await page.getByText("Another program has changed the file.", { exact: true }).waitFor();
  await button("Show both texts").click();
  const rows = page.locator("main table tr.differs");
  await expect.poll(() => rows.allTextContents()).toEqual(
    expect.arrayContaining([expect.stringMatching(/16 N/), expect.stringMatching(/written by another hand/)]),
  );
  await button("Write the bench over it").click();
  await expect.poll(() => readFileSync(file(), "utf8")).toContain("16 N");
  expect(readFileSync(file(), "utf8")).not.toContain("another hand");

  await page.getByRole("button", { name: "Undo" }).click();
  await button("Text").click();
  await expect.poll(() => page.getByLabel("Text of the job file").inputValue()).toContain("written by another hand");
  await page.getByRole("button", { name: "Redo" }).click();
  await expect.poll(() => page.getByLabel("Text of the job file").inputValue()).toContain("16 N");
});

it("a file that is gone is not told as changed, and is written again", async () => {
  await type(page, friction, "15 N");
  await settled(page);
  rmSync(file());
  await page.getByText("The file of this job is gone.", { exact: true }).waitFor();
  expect(await page.getByText("Another program has changed the file.", { exact: true }).count()).toBe(0);
  await button("Write the file again").click();
  await expect.poll(() => notices().count()).toBe(0);
  expect(readFileSync(file(), "utf8")).toContain("15 N");
});

it("a parts file that another program changes is noticed, and the parts in hand follow", async () => {
  await page.getByRole("link", { name: /Valving/ }).click();
  const parts = readdirSync(bench.program.folder).find((name) => name.endsWith(".parts.toml")) ?? "";
  const path = join(bench.program.folder, parts);
  const text = readFileSync(path, "utf8");
  appendFileSync(path, "# counted again\n");
  await page.getByText("Another program has changed a parts file.", { exact: true }).waitFor();
  await button("Put this notice away").click();
  await expect.poll(() => notices().count()).toBe(0);
  rmSync(path);
  await page.getByText("Another program has changed a parts file.", { exact: true }).waitFor();
  await expect.poll(() => page.locator("main").textContent()).toContain("from the last state without faults"); // its parts are missed
  writeFileSync(path, text);
  await expect.poll(() => page.locator("main").textContent()).not.toContain("from the last state without faults");
});

it("a journal that has lost its end says so", async () => {
  const copy = join(bench.program.folder, "copy.db");
  await type(page, friction, "14 N");
  await settled(page);
  await bench.program.kill();
  const fold = async (): Promise<void> => {
    // the log goes into the journal at its first use after a kill
    await bench.program.start();
    await expect.poll(() => page.getByText("The program does not answer.", { exact: true }).count()).toBe(0);
  };
  await fold();
  copyFileSync(bench.program.journal, copy);
  for (const words of ["13 N", "12 N", "11 N"]) {
    await type(page, friction, words);
    await settled(page);
  }
  await bench.program.kill();
  for (const beside of ["-wal", "-shm"]) if (existsSync(bench.program.journal + beside)) rmSync(bench.program.journal + beside);
  copyFileSync(copy, bench.program.journal);
  await bench.program.start();
  await page.getByText("The journal has lost its last changes.", { exact: true }).waitFor();
  await expect.poll(() => field(page, friction).inputValue()).toBe("11 N"); // the page still had it
});

it("a second page that could only read takes over when the first workbench ends", async () => {
  const second = await bench.program.second();
  const other = await bench.page();
  await other.goto(`${second.address}/#hardware`);
  await other.locator("aside .value").first().waitFor();
  await other.getByText("Another workbench works in this folder.", { exact: true }).waitFor();
  await bench.program.kill();
  await expect.poll(() => other.getByText("Another workbench works in this folder.", { exact: true }).count()).toBe(0);
  await type(other, friction, "25 N");
  await settled(other);
  await second.kill();
  await bench.program.start();
  const fresh = await bench.page();
  await bench.open(fresh, "hardware");
  expect(await field(fresh, friction).inputValue()).toBe("25 N");
  bench.faults.splice(0, bench.faults.length, ...bench.faults.filter((one) => !one.startsWith(`outside: ${second.address}`)));
});
