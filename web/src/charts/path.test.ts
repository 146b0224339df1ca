import { describe, expect, it } from "vitest";
import { scaleOf } from "./axis";
import { bandPath, px, runsOf } from "./path";

const x = scaleOf({ min: 0, max: 4 }, 0, 400);
const y = scaleOf({ min: 0, max: 100 }, 100, 0);

describe("a line on the page", () => {
  it("is one run while the model holds", () => {
    expect(runsOf([0, 1, 2], [0, 50, 100], x, y)).toEqual([{ d: "M0 100L100 50L200 0", dotted: false }]);
  });

  it("breaks into dots where the model left its range, without a gap", () => {
    const runs = runsOf([0, 1, 2, 3], [0, 10, 20, 30], x, y, [false, false, true, true]);
    expect(runs.map((r) => r.dotted)).toEqual([false, true]);
    expect(runs[1]!.d.startsWith("M100 90")).toBe(true);
  });

  it("leaves out pieces without a number, and what a logarithm cannot show", () => {
    expect(runsOf([0, 1, 2, 3], [0, NaN, 20, 30], x, y)).toEqual([{ d: "M200 80L300 70", dotted: false }]);
    const log = scaleOf({ min: 0.1, max: 4 }, 0, 400, true);
    expect(runsOf([0, 1, 2], [1, 2, 3], log, y)).toHaveLength(1);
  });

  it("writes a tenth of a pixel and no negative zero", () => {
    expect(px(-0.01)).toBe("0");
    expect(px(12.345)).toBe("12.3");
  });

  it("bounds a band by its high line and back along its low one", () => {
    expect(bandPath([0, 1], [10, 20], [30, 40], x, y)).toBe("M0 70L100 60L100 80L0 90Z");
  });
});
