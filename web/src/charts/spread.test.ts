import { describe, expect, it } from "vitest";
import cases from "../../../src/report/plot_cases.json"; // as in print
import { spread } from "./spread";

describe("labels", () => {
  it.each(cases.spread)("that want $wanted stand at $places", ({ wanted, pitch, min, max, places }) => {
    expect(spread(wanted, pitch, min, max)).toEqual(places);
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
