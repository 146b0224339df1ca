import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { violations } from "./axe";
import { Bench, type Size, sizes, type Theme } from "./bench";
import { stations } from "./stations";

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

describe.each<Theme>(["light", "dark"])("on a %s page", (theme) => {
  it.each(Object.keys(sizes) as Size[])("axe finds nothing at any station of a %s", async (size) => {
    const page = await bench.page(size, theme);
    for (const station of stations) {
      await bench.open(page, station);
      expect(await violations(page), station).toEqual([]);
    }
    // with everything open that can be opened, with the drawer of jobs and the file as text
    await bench.open(page, "hardware");
    for (const more of await page.locator("main details").all()) await more.evaluate((one) => one.setAttribute("open", ""));
    expect(await violations(page), "all keys").toEqual([]);
    await page.getByRole("button", { name: /jobs in this folder/ }).click();
    expect(await violations(page), "jobs").toEqual([]);
    await page.getByRole("button", { name: "Text", exact: true }).click();
    expect(await violations(page), "text").toEqual([]);
  });
});
