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

it("values are typed in inches and pounds, kept as typed, and shown in either system", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  const forces = page.locator("aside .forces");
  expect(await forces.textContent()).toContain("compression N");
  const before = await forces.textContent();

  await type(page, "unit[0].seal_friction", "4 lbf");
  await expect.poll(() => forces.textContent()).not.toBe(before);
  expect(await field(page, "unit[0].seal_friction").inputValue()).toBe("4 lbf");

  await page.getByRole("radio", { name: "in", exact: true }).check();
  await expect.poll(() => forces.textContent()).toContain("compression lbf");
  await page.getByText("Piston 0.945\u2009in").waitFor();
  expect(await field(page, "unit[0].seal_friction").inputValue()).toBe("4 lbf"); // the switch changes no file

  // a shim in thousandths
  await page.getByRole("link", { name: /Valving/ }).click();
  const list = page.getByRole("listbox");
  await list.focus();
  await list.press("End");
  await list.press("Enter");
  await page.getByLabel("as typed").fill("4 x 0.827 x 0.004 in");
  await page.getByLabel("as typed").press("Enter");
  await settled(page);
  await expect.poll(() => list.locator(".text").last().textContent()).toBe("4 x 0.827 x 0.004 in");
  expect(await page.getByText(/values? ha(s|ve) a fault/).count()).toBe(0);
});

it("the weight on a bottle is refused, with the reason and what to write", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  const friction = field(page, "unit[0].seal_friction");
  await friction.click();
  await friction.fill("4 lb");
  const fault = page.locator(".field", { has: friction }).locator(".fault");
  await fault.waitFor();
  expect(await fault.textContent()).toMatch(/lbf/);
  expect(await friction.inputValue()).toBe("4 lb");
  expect(await friction.getAttribute("aria-invalid")).toBe("true");
  await friction.fill("4 lbf");
  await friction.press("Enter");
  await expect.poll(() => fault.count()).toBe(0);
});
