import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Bench, field, settled } from "./bench";
import { stations } from "./stations";

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.set("enduro-fork");
});
afterAll(async () => {
  await bench.end();
  expect(bench.faults).toEqual([]);
});

/** Tab until the focus is where the words are. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let n = 0; n < 80; ++n) {
    await page.keyboard.press("Tab");
    const words = await page.evaluate(() => {
      const at = document.activeElement;
      return `${at?.getAttribute("aria-label") ?? ""} ${at?.textContent ?? ""}`.trim();
    });
    if (name.test(words)) return;
  }
  throw new Error(`no way by Tab to ${name}`);
}

it("a shim is changed, undone, done again and saved without a mouse", async () => {
  const page = await bench.page();
  await bench.open(page);
  await tabTo(page, /^3\s*Valving/);
  await page.keyboard.press("Enter");
  await tabTo(page, /^stack, clamp above/);
  const last = page.getByRole("listbox").locator(".text").last();
  expect(await last.textContent()).toBe("4 x 21 x 0.15 mm");
  await page.keyboard.press("End");
  await page.keyboard.press("+");
  await expect.poll(() => last.textContent()).toBe("5 x 21 x 0.15 mm");
  await settled(page);
  await page.keyboard.press("Control+z");
  await expect.poll(() => last.textContent()).toBe("4 x 21 x 0.15 mm");
  await page.keyboard.press("Control+Shift+z");
  await expect.poll(() => last.textContent()).toBe("5 x 21 x 0.15 mm");
  await page.keyboard.press("Control+s");
  await page.getByText("· saved").waitFor();
});

it("a value typed letter by letter shows what it does meanwhile, and is one step to undo", async () => {
  const page = await bench.page();
  await bench.open(page, "hardware");
  const friction = field(page, "unit[0].seal_friction");
  const was = await friction.inputValue();
  const force = page.locator("aside .force.compression .value").first();
  const before = await force.textContent();
  await friction.click();
  await friction.press("Control+a");
  await friction.pressSequentially("41 N", { delay: 220 });
  await expect.poll(() => force.textContent()).not.toBe(before);
  await friction.press("Enter");
  await settled(page);
  await page.keyboard.press("Control+z");
  await expect.poll(() => friction.inputValue()).toBe(was);
  await expect.poll(() => force.textContent()).toBe(before);
});

it("whatever has the focus shows it, at every station", async () => {
  const page = await bench.page();
  for (const station of stations) {
    await bench.open(page, station);
    const seen = new Set<string>();
    for (let n = 0; n < 60; ++n) {
      await page.keyboard.press("Tab");
      const at = await page.evaluate(() => {
        const one = document.activeElement;
        if (!one || one === document.body || one.tagName === "IFRAME") return { name: "", shown: true };
        const ring = (of: Element | null): boolean => of !== null && getComputedStyle(of).outlineStyle !== "none";
        const name = `${one.tagName} ${one.getAttribute("aria-label") ?? one.textContent?.trim().slice(0, 30) ?? ""}`;
        return { name, shown: ring(one) || ring(one.closest("label")) || ring(one.firstElementChild) };
      });
      expect(at.shown, `${station}: ${at.name}`).toBe(true);
      seen.add(at.name);
    }
    expect(seen.size, station).toBeGreaterThan(12);
  }
});
