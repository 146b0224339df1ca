import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench, settled } from "./bench";

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("stack-only", "");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

it("a stack is built from nothing, by typing and from the keys, and saved", async () => {
  const page = await bench.page();
  await page.goto(bench.program.address);
  await page.getByLabel("Name of the job").fill("My base valve");
  await page.getByLabel("Start from").selectOption("stack");
  await page.getByRole("button", { name: "Create" }).click();

  // nothing: every shim of the plain start is taken out
  const list = page.getByRole("listbox");
  await list.focus();
  while ((await list.getByRole("option").count()) > 0) {
    const n = await list.getByRole("option").count();
    await list.press("End");
    await list.press("Delete");
    await expect.poll(() => list.getByRole("option").count()).toBeLessThan(n);
  }

  const entry = page.getByLabel(/new entry/);
  for (const shims of ["5 x 19 x 0.15", "2 x 18 x 0.15 mm", "1 x 14 x 0.20 mm"]) {
    const n = await list.getByRole("option").count();
    await entry.fill(shims);
    await entry.press("Enter");
    await expect.poll(() => list.getByRole("option").count()).toBe(n + 1);
  }
  const texts = await list.locator(".text").allTextContents();
  expect(texts).toEqual(["1 x 14 x 0.20 mm", "2 x 18 x 0.15 mm", "5 x 19 x 0.15 mm"]); // clamp above, seat below

  // the picture bends under the slider and says by how much
  await expect.poll(() => page.locator(".notes .state").textContent()).toMatch(/lift .*mm at the seat/);

  // one more of the face shim, by key
  await list.focus();
  await list.press("End");
  await list.press("+");
  await expect.poll(() => list.locator(".text").last().textContent()).toBe("6 x 19 x 0.15 mm");

  await settled(page);
  await page.keyboard.press("Control+s");
  const file = join(bench.program.folder, "my-base-valve.job.toml");
  await expect.poll(() => readFileSync(file, "utf8")).toMatch(/6 x 19 x 0\.15 mm[\s\S]*2 x 18 x 0\.15 mm[\s\S]*1 x 14 x 0\.20 mm/);
});

it("a text that is no shim is kept as typed, with its fault and the remedy, and the rest goes on", async () => {
  const page = await bench.page();
  await page.goto(bench.program.address);
  await page.getByRole("button", { name: /Tapered base-valve stack/ }).click();
  await page.getByRole("link", { name: /Valving/ }).click();
  const list = page.getByRole("listbox");
  await list.focus();
  await list.press("End");
  await list.press("Enter");
  const typed = page.getByLabel("as typed");
  await typed.fill("3 x potato");
  await typed.press("Enter");
  await page.getByText("One value has a fault.", { exact: true }).waitFor();
  await expect.poll(() => list.locator(".text").last().textContent()).toBe("3 x potato");
  expect(await page.locator(".hand .fault").textContent()).toMatch(/number/);
  await page.getByText("From the last state without faults").first().waitFor();

  await typed.fill("3 x 19 x 0.15 mm");
  await typed.press("Enter");
  await expect.poll(() => page.getByText(/values? ha(s|ve) a fault/).count()).toBe(0);
});
