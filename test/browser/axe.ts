import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";

// as text into the page: a script element is what its security policy refuses
const axe = readFileSync(fileURLToPath(new URL("../../web/node_modules/axe-core/axe.min.js", import.meta.url)), "utf8");

interface Violation {
  id: string;
  nodes: { target: string[]; html: string }[];
}
/** What axe finds wrong with a page as it stands, a line for each rule. */
export async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  const found = await page.evaluate(async () => {
    const run = (globalThis as unknown as { axe: { run(of: Document, how: object): Promise<{ violations: Violation[] }> } }).axe.run;
    return (await run(document, { iframes: false })).violations; // the packet in its frame is the report's own page
  });
  return found.map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 160)).join(" | ")}`);
}
