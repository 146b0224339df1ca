// How long the stack picture and the force chart take to redraw together when everything about them changes:
//   node dev/make_data.mjs BINARY && node dev/measure.mjs
// Script and layout, in headless Chromium, of the harness built as the program's page is built.
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { chromium } from "playwright-core";
import { build, preview } from "vite";

const here = dirname(fileURLToPath(import.meta.url));
const outDir = mkdtempSync(join(tmpdir(), "harness-"));
const common = { root: here, configFile: false, plugins: [svelte()], logLevel: "error", base: "./" };
await build({ ...common, build: { outDir, target: "es2022", emptyOutDir: true } });
copyFileSync(join(here, "data.json"), join(outDir, "data.json"));
const server = await preview({ ...common, build: { outDir }, preview: { host: "127.0.0.1", port: 0 } });
const address = server.resolvedUrls.local[0];
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--headless", "--no-sandbox", "--disable-gpu"],
});
try {
  for (const width of [360, 768, 1366]) {
    const page = await browser.newPage({ viewport: { width, height: 800 } });
    await page.goto(`${address}index.html?show=speed`, { waitUntil: "networkidle" });
    await page.waitForFunction(() => window.harness);
    await page.evaluate(() => window.harness.measure(100)); // until the engine has compiled what is hot
    const times = (await page.evaluate(() => window.harness.measure(200))).sort((a, b) => a - b);
    const at = (share) => times[Math.floor(share * (times.length - 1))].toFixed(1);
    console.log(`${width} px: median ${at(0.5)} ms, p95 ${at(0.95)} ms, most ${at(1)} ms of 200 changes`);
    await page.close();
  }
} finally {
  await browser.close();
  await server.close();
  rmSync(outDir, { recursive: true });
}
