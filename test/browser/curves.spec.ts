import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench } from "./bench";

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

const name = "Damping force over shaft speed";
/** Newtons of "compression, 12 clicks 110 N" in words read out. */
const newtons = (words: string | null, of: string): number => Number(new RegExp(`${of}[^;]*?(\\d+(?:\\.\\d+)?)\\u2009N`).exec(words ?? "")?.[1]);

it("the cursor of a curve reads the values that the panel shows, by keys alone", async () => {
  const page = await bench.page();
  await bench.open(page, "effect");
  const plot = page.getByRole("slider", { name });
  await plot.focus();
  expect(await plot.getAttribute("aria-valuetext")).toMatch(/no place chosen/);
  await page.keyboard.press("End");
  const end = await plot.getAttribute("aria-valuetext");
  await page.keyboard.press("Home");
  const start = await plot.getAttribute("aria-valuetext");
  expect(newtons(end, "compression")).toBeGreaterThan(newtons(start, "compression"));
  expect(newtons(end, "rebound")).toBeGreaterThan(newtons(start, "rebound")); // drawn down, read as positive
  await page.keyboard.press("Shift+ArrowRight");
  expect(await plot.getAttribute("aria-valuetext")).not.toBe(start);
});

it("a piece of a curve is looked at closely by keys, by drag and by wheel, and the whole comes back", async () => {
  const page = await bench.page();
  await bench.open(page, "effect");
  const plot = page.getByRole("slider", { name });
  const figure = page.locator(".plot", { has: plot });
  const said = figure.locator("[aria-live]");
  await plot.focus();
  await page.keyboard.press("+");
  await expect.poll(() => said.textContent()).toMatch(/^shown: /);
  await page.keyboard.press("0");
  await expect.poll(() => said.textContent()).toBe("all shown");

  const box = (await plot.boundingBox())!;
  await page.mouse.move(box.x + 120, box.y + 120);
  await page.mouse.down();
  await page.mouse.move(box.x + 320, box.y + 130, { steps: 4 });
  await page.mouse.up();
  const drawn = await said.textContent();
  expect(drawn).toMatch(/^shown: /);
  await page.mouse.wheel(0, -200);
  await expect.poll(() => said.textContent()).not.toBe(drawn);
  await figure.getByRole("button", { name: "Whole" }).click();
  await expect.poll(() => said.textContent()).toBe("all shown");
  await figure.getByRole("button", { name: "Log" }).click();
  await expect.poll(() => figure.locator("svg").textContent()).toContain("equal ratios");
});

it("the same numbers come as a table, as CSV and as a drawing of its own", async () => {
  const page = await bench.page();
  await bench.open(page, "effect");
  const figure = page.locator(".plot", { has: page.getByRole("slider", { name }) });
  await figure.getByRole("button", { name: "Table" }).click();
  const heads = await figure.locator("thead th").allTextContents();
  expect(heads.slice(0, 3).map((head) => head.replace(/\s+/g, " ").trim())).toEqual([
    "shaft speedm/s",
    "compression, 12 clicksN",
    "rebound, 10 clicksN",
  ]);
  const nRows = await figure.locator("tbody tr").count();
  expect(nRows).toBeGreaterThan(20);

  const [csv] = await Promise.all([page.waitForEvent("download"), figure.getByRole("button", { name: "CSV" }).click()]);
  const lines = readFileSync(await csv.path(), "utf8").split("\r\n");
  expect(lines[0]).toMatch(/^shaft speed \[m\/s\],"compression, 12 clicks \[N\]","rebound, 10 clicks \[N\]"/);
  expect(lines).toHaveLength(nRows + 2);
  for (const value of lines[1]!.split(",")) expect(Number.isFinite(Number(value)), lines[1]).toBe(true);

  const [svg] = await Promise.all([page.waitForEvent("download"), figure.getByRole("button", { name: "SVG" }).click()]);
  const text = readFileSync(await svg.path(), "utf8");
  expect(text).toContain('xmlns="http://www.w3.org/2000/svg"');
  expect(text).toContain(`<title>${name}</title>`);
  expect(text).not.toMatch(/var\(|class=|tabindex|NaN/);
});

it("the lift over pressure is drawn of the stack under the hand, also after a change, and what each shim matters is said", async () => {
  const page = await bench.page();
  await bench.open(page, "valving");
  const plot = page.getByRole("slider", { name: "Lift over pressure drop" });
  const lift = async (): Promise<number> => {
    await plot.focus();
    await page.keyboard.press("End");
    const words = (await plot.getAttribute("aria-valuetext")) ?? "";
    const [, pressure, far] = /^([\d.]+)\s*bar: .*at the seat ([\d.]+)\s*mm/.exec(words) ?? [];
    return Number(pressure) > 1 ? Number(far) : 0;
  };
  for (const side of [/^Mid-valve/, /^Base valve/]) {
    await page.getByRole("button", { name: side }).click();
    await expect.poll(lift, { message: `${side}` }).toBeGreaterThan(0.05);
  }
  expect(await page.getByText(/0\.01\s*mm more on /).count()).toBeGreaterThan(1);
  const before = await lift();
  const list = page.getByRole("listbox");
  await list.focus();
  await list.press("End");
  for (let n = 0; n < 4; ++n) await list.press("+");
  await expect.poll(lift).toBeLessThan(before);
});
