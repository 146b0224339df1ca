import { describe, expect, it } from "vitest";
import { spread } from "./spread";

describe("labels", () => {
  it("stand where they wish when there is room", () => {
    expect(spread([10, 50, 90], 12, 0, 100)).toEqual([10, 50, 90]);
  });

  it("that touch move apart by the same way to both sides", () => {
    expect(spread([50, 50], 12, 0, 100)).toEqual([44, 56]);
  });

  it("keep the pitch and the order, and stay inside when they fit", () => {
    let seed = 7;
    const random = (): number => (seed = (seed * 16807) % 2147483647) / 2147483647;
    for (let round = 0; round < 200; ++round) {
      const wanted = Array.from({ length: 1 + Math.floor(random() * 7) }, () => random() * 240 - 20);
      const places = spread(wanted, 14, 0, 200);
      const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
      order.forEach((i, k) => {
        expect(places[i]).toBeGreaterThanOrEqual(-1e-9);
        expect(places[i]).toBeLessThanOrEqual(200 + 1e-9);
        if (k > 0) expect(places[i]! - places[order[k - 1]!]!).toBeGreaterThanOrEqual(14 - 1e-9);
      });
    }
  });
});
