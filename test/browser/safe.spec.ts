import { rmSync, writeFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from "vitest";
import { Bench, field, settled, type } from "./bench";

const friction = "unit[0].seal_friction";
const travel = "unit[0].travel";

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
const notices = () => page.getByRole("region", { name: "Notices" });
const said = () => page.getByRole("status").textContent();
/** The browser notes refused requests in its console by itself: those lines, and no others, are wanted. */
const refusalsNoted = (status: string): void => {
  expect(bench.faults.splice(0).filter((one) => !one.includes(status))).toEqual([]);
};

it("a full disk: what is typed stays in view, is said not to be safe, and is kept when there is room", async () => {
  await type(page, friction, "17 N");
  await settled(page);
  bench.program.fillDisk(true);
  await type(page, friction, "18 N");
  await type(page, travel, "303 mm");
  await expect.poll(() => notices().textContent()).toMatch(/changes are not safe yet/);
  expect(await field(page, friction).inputValue()).toBe("18 N");
  expect(await field(page, travel).inputValue()).toBe("303 mm");
  expect(await said()).toMatch(/not safe yet/);

  await page.reload(); // from the browser's storage
  await expect.poll(() => field(page, travel).inputValue()).toBe("303 mm");
  bench.program.fillDisk(false);
  await settled(page);
  await expect.poll(() => notices().count()).toBe(0);
  refusalsNoted("500 (Internal");

  const fresh = await bench.page();
  await bench.open(fresh, "hardware");
  expect(await field(fresh, friction).inputValue()).toBe("18 N");
  expect(await field(fresh, travel).inputValue()).toBe("303 mm");
});

it("the program away: says how much is not safe, and comes back where the page looks for it", async () => {
  await bench.program.kill();
  await page.getByText("The program does not answer.", { exact: true }).waitFor();
  await type(page, friction, "19 N");
  await expect.poll(() => notices().textContent()).toContain("One change is not safe yet");
  await type(page, travel, "304 mm");
  await expect.poll(() => notices().textContent()).toContain("2 changes are not safe yet");
  const address = bench.program.address;
  await bench.program.start(true);
  expect(bench.program.address).toBe(address); // without being told which
  await settled(page);
  await expect.poll(() => notices().count()).toBe(0);
  await expect.poll(said).toMatch(/^(Kept|The program answers again)/);
  expect(await field(page, travel).inputValue()).toBe("304 mm");
});

it("a journal that was begun anew while the program was away gets back what the page still had", async () => {
  for (const words of ["21 N", "22 N", "23 N"]) await type(page, friction, words);
  await settled(page);
  await bench.program.kill();
  await page.getByText("The program does not answer.", { exact: true }).waitFor();
  await type(page, travel, "305 mm");
  writeFileSync(bench.program.journal, "no journal at all, but long enough to be taken for one".repeat(40));
  rmSync(`${bench.program.journal}-wal`, { force: true });
  await bench.program.start();
  await settled(page);
  await expect.poll(() => field(page, friction).inputValue()).toBe("23 N");
  await expect.poll(() => field(page, travel).inputValue()).toBe("305 mm");
  await page.getByText("A new journal was begun.", { exact: true }).waitFor();
  await page.getByRole("button", { name: "Put this notice away" }).click();
  await expect.poll(() => notices().count()).toBe(0);

  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => field(page, friction).inputValue()).not.toBe("23 N"); // the file's
  await page.getByRole("button", { name: "Redo" }).click();
  await expect.poll(() => field(page, friction).inputValue()).toBe("23 N");
});

it("a journal that is taken away under the running program is begun anew with what is open", async () => {
  await type(page, friction, "24 N");
  await settled(page);
  rmSync(bench.program.journal);
  await page.getByText("A new journal was begun.", { exact: true }).waitFor();
  await type(page, travel, "306 mm");
  await settled(page);
  await bench.program.kill();
  await bench.program.start();
  const fresh = await bench.page();
  await bench.open(fresh, "hardware");
  expect(await field(fresh, friction).inputValue()).toBe("24 N");
  expect(await field(fresh, travel).inputValue()).toBe("306 mm");
});
