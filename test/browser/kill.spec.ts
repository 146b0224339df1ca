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

it("what is typed while the program is killed is there when it is back", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  await type(page, "unit[0].seal_friction", "17 N");
  await settled(page);

  const travel = field(page, "unit[0].travel");
  await travel.click();
  await travel.fill("30");
  await bench.program.kill();
  await travel.pressSequentially("5 mm"); // on and on, as if nothing were
  await page.getByText("The program does not answer.", { exact: true }).waitFor();
  await type(page, "unit[0].rod", "12.1 mm");

  await bench.program.start();
  await settled(page);
  await expect.poll(() => page.getByText("The program does not answer.", { exact: true }).count()).toBe(0);

  const fresh = await bench.page();
  await bench.open(fresh, "hardware");
  expect(await field(fresh, "unit[0].travel").inputValue()).toBe("305 mm");
  expect(await field(fresh, "unit[0].rod").inputValue()).toBe("12.1 mm");
  expect(await field(fresh, "unit[0].seal_friction").inputValue()).toBe("17 N");
});

it("what is typed is there after page and program both went, and no shim is put in twice", async () => {
  const context = await bench.context();
  const page = await bench.tab(context);
  await bench.open(page, "valving");
  const list = page.getByRole("listbox");
  const n = await list.getByRole("option").count();
  await bench.program.kill();
  const entry = page.getByLabel(/new entry/);
  await entry.fill("1 x 12 x 0.10 mm");
  await entry.press("Enter");
  await page.getByText("The program does not answer.", { exact: true }).waitFor();
  await page.close();

  await bench.program.start();
  const again = await bench.tab(context);
  await bench.open(again, "valving");
  const shown = again.getByRole("listbox");
  await expect.poll(() => shown.getByRole("option").count()).toBe(n + 1);
  await settled(again);
  await again.reload();
  await again.locator("aside .value").first().waitFor();
  expect(await again.getByRole("listbox").getByRole("option").count()).toBe(n + 1);
});

it("undo goes back over the restart", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  await type(page, "unit[0].seal_friction", "21 N");
  await settled(page);
  await bench.program.kill();
  await page.getByText("The program does not answer.", { exact: true }).waitFor();
  await bench.program.start();
  await expect.poll(() => page.getByText("The program does not answer.", { exact: true }).count()).toBe(0);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => field(page, "unit[0].seal_friction").inputValue()).toBe("17 N");
});
