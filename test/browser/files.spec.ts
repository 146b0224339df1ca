import { readFileSync } from "node:fs";
import { join } from "node:path";
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

it("a build is compared with what it was some steps ago", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  await type(page, "unit[0].seal_friction", "60 N");
  await settled(page);
  await page.getByRole("link", { name: /Effect/ }).click();
  const chart = page.locator("main figure").first();
  const before = await chart.locator("svg").textContent();
  await page.getByLabel("Compare with").selectOption({ label: "step 1" });
  await expect.poll(() => chart.locator("svg").textContent()).toMatch(/step 1/);
  expect(before).not.toMatch(/step 1/);
});

it("the file is typed as text, its faults stand by their lines, and the page takes the rest up when it is good", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  await page.getByRole("button", { name: "Text", exact: true }).click();
  const area = page.getByLabel("Text of the job file");
  const text = await area.inputValue();
  await area.fill(text.replace('"300 mm"', '"300"'));
  await page.getByRole("button", { name: "Use this text" }).click();
  const fault = page.locator(".faults li").first();
  await fault.waitFor();
  const line = text.split("\n").findIndex((one) => one.startsWith("travel")) + 1;
  expect(await fault.textContent()).toContain(`Line ${line}`);
  await page.getByText("From the last state without faults").first().waitFor();

  await area.fill(text.replace('"300 mm"', '"302 mm"'));
  await page.getByRole("button", { name: "Use this text" }).click();
  await expect.poll(() => page.locator(".faults li").count()).toBe(0);
  await page.getByRole("link", { name: /Hardware/ }).click();
  expect(await field(page, "unit[0].travel").inputValue()).toBe("302 mm");
});

it("a new job begins as a copy and leaves the old one alone", async () => {
  const page = await bench.page();
  await bench.open(page);
  await page.getByRole("button", { name: /jobs in this folder/ }).click();
  await page.getByLabel("Name of the job").fill("Rider 8, softer");
  await page.getByLabel("Start from").selectOption({ label: "a copy of Enduro fork, 92 kg rider" });
  await page.getByRole("button", { name: "Create" }).click();
  await expect.poll(() => field(page, "rider.name").inputValue()).toBe("Rider 7");
  await type(page, "rider.name", "Rider 8");
  await settled(page);
  await page.keyboard.press("Control+s");
  await expect.poll(() => readFileSync(join(bench.program.folder, "rider-8-softer.job.toml"), "utf8")).toContain('"Rider 8"');
  expect(readFileSync(join(bench.program.folder, "enduro-fork.job.toml"), "utf8")).toContain('"Rider 7"');
});

it("the packet is looked at on the page and taken as PDF", async () => {
  const page = await bench.page();
  await bench.open(page, "build");
  const frame = page.frameLocator("iframe");
  await frame.getByRole("heading", { name: /Before you start/ }).waitFor();
  for (const name of [/Build sheet, PDF/, /Settings guide, PDF/]) {
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("link", { name }).click()]);
    const bytes = readFileSync(await download.path());
    expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
  }
});
