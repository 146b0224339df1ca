import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Bench, type Size, sizes, type Theme } from "./bench";
import { stations } from "./stations";

// as text into the page: a script element is what its security policy refuses
const axe = readFileSync(fileURLToPath(new URL("../../web/node_modules/axe-core/axe.min.js", import.meta.url)), "utf8");

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

interface Violation {
  id: string;
  nodes: { target: string[]; html: string }[];
}
async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  const found = await page.evaluate(async () => {
    const run = (globalThis as unknown as { axe: { run(of: Document, how: object): Promise<{ violations: Violation[] }> } }).axe.run;
    return (await run(document, { iframes: false })).violations; // the packet in its frame is the report's own page
  });
  return found.map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 160)).join(" | ")}`);
}

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
