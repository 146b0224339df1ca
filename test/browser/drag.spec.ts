import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench, settled } from "./bench";

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

const start = ["1 x 15 x 0.15 mm", "1 x 18 x 0.15 mm", "1 x shim 20x0.15", "1 x 16 x 0.10 mm", "4 x 21 x 0.15 mm"];
const texts = (page: Page): Promise<string[]> => page.getByRole("listbox").locator(".text").allTextContents();
const row = (page: Page, text: string) => page.getByRole("option", { name: text });

async function middle(page: Page, text: string): Promise<{ x: number; y: number }> {
  const box = await row(page, text).boundingBox();
  if (!box) throw new Error(`no row ${text}`);
  return { x: box.x + 40, y: box.y + box.height / 2 };
}

it("a shim is dragged to another place, and the figures follow while the finger is still down", async () => {
  const page = await bench.page();
  await bench.open(page, "valving");
  await expect.poll(() => texts(page)).toEqual(start);
  const force = page.locator("aside .value").first();
  const before = await page.locator("aside .value").allTextContents();

  const from = await middle(page, "1 x 18 x 0.15 mm");
  const to = await middle(page, "4 x 21 x 0.15 mm");
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x, from.y + 30, { steps: 3 });
  await page.mouse.move(to.x, to.y - 14, { steps: 6 });
  // a try: the figures are those of the new order, the file is as it was
  await expect.poll(() => page.locator("aside .value").allTextContents()).not.toEqual(before);
  expect(await page.getByText("not saved to the file").count()).toBe(0);
  await page.mouse.up();
  await expect.poll(() => texts(page)).toEqual([start[0], start[2], start[3], start[1], start[4]]);
  expect(await force.isVisible()).toBe(true);

  await page.keyboard.press("Control+z");
  await expect.poll(() => texts(page)).toEqual(start);
});

it("a drag that is given up changes nothing", async () => {
  const page = await bench.page();
  await bench.open(page, "valving");
  await expect.poll(() => texts(page)).toEqual(start);
  const before = await page.locator("aside .value").allTextContents();
  const from = await middle(page, "1 x 15 x 0.15 mm");
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x, from.y + 100, { steps: 5 });
  await page.mouse.move(from.x, from.y, { steps: 5 });
  await page.mouse.up();
  await settled(page);
  expect(await texts(page)).toEqual(start);
  await expect.poll(() => page.locator("aside .value").allTextContents()).toEqual(before);
});

it("a shim dragged off the picture is taken out, and undo puts it back", async () => {
  const page = await bench.page();
  await bench.open(page, "valving");
  await expect.poll(() => texts(page)).toEqual(start);
  const from = await middle(page, "1 x 15 x 0.15 mm");
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x - 40, from.y, { steps: 3 });
  await page.mouse.move(4, 760, { steps: 8 });
  await page.getByText("Let go to remove it.").waitFor();
  await page.mouse.up();
  await expect.poll(() => texts(page)).toEqual(start.slice(1));
  await page.keyboard.press("Control+z");
  await expect.poll(() => texts(page)).toEqual(start);
});

it("on a phone a tap takes a shim in hand and the next touch drags it", async () => {
  const context = await bench.browser.newContext({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
  const page = await bench.tab(context);
  await bench.open(page, "valving");
  await expect.poll(() => texts(page)).toEqual(start);
  await row(page, "1 x 18 x 0.15 mm").tap();
  const from = await middle(page, "1 x 18 x 0.15 mm");
  const hand = await context.newCDPSession(page);
  const touch = (type: "touchStart" | "touchMove" | "touchEnd", y?: number): Promise<unknown> =>
    hand.send("Input.dispatchTouchEvent", { type, touchPoints: y === undefined ? [] : [{ x: from.x, y }] });
  await touch("touchStart", from.y);
  for (let step = 1; step <= 8; ++step) await touch("touchMove", from.y + 6 * step);
  await page.waitForTimeout(200); // a finger that lets go at speed flings, and the browser gives the next tap to the fling
  await touch("touchEnd");
  await expect.poll(() => texts(page)).toEqual([start[0], start[2], start[1], start[3], start[4]]);
  await page.getByRole("button", { name: /Undo/ }).tap();
  await expect.poll(() => texts(page)).toEqual(start);
  await context.close();
});

it("the slider bends the picture: lift, worst shim and contacts follow, and at rest it lies flat", async () => {
  const page = await bench.page();
  await bench.open(page, "valving");
  const state = page.locator(".notes .state");
  await expect.poll(() => state.textContent()).toMatch(/lift 0\.\d+\smm at the seat/);
  const slider = page.getByRole("slider", { name: "Load on the stack" });
  const outline = (): Promise<string | null> => page.locator("svg.section").innerHTML();
  const bent = await outline();
  await slider.focus();
  for (let n = 0; n < 10; ++n) await page.keyboard.press("ArrowRight");
  await expect.poll(outline).not.toBe(bent);
  await page.getByText("highest stress").first().waitFor();
  expect(await slider.getAttribute("aria-valuetext")).toMatch(/^shaft speed/);
  await page.keyboard.press("Home");
  await expect.poll(() => state.textContent()).toBe("At rest.");
});

it("keys that come faster than the answers do what they say, one after another", async () => {
  const page = await bench.page();
  await bench.open(page, "valving");
  await expect.poll(() => texts(page)).toEqual(start);
  await page.getByRole("listbox").focus();
  await page.keyboard.press("End");
  for (const key of ["+", "+", "+", "d", "d", "-", "Alt+ArrowUp", "Alt+ArrowUp"]) await page.keyboard.press(key);
  const then = [start[0], start[1], "6 x 21 x 0.15 mm", start[2], start[3], "7 x 21 x 0.15 mm", "7 x 21 x 0.15 mm"];
  await settled(page);
  await expect.poll(() => texts(page)).toEqual(then);
  // what stands there is what the program has, not only what the page foresaw
  await page.reload();
  await expect.poll(() => texts(page)).toEqual(then);
});
