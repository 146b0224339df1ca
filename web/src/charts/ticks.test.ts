import { describe, expect, it } from "vitest";
import { decimalsOf, logTicks, step125, ticks125 } from "./ticks";

describe("ticks", () => {
  it("stand at 1, 2 or 5 times a power of ten", () => {
    expect(ticks125(0, 10, 5)).toEqual([0, 2, 4, 6, 8, 10]);
    expect(ticks125(-1200, 700, 4)).toEqual([-1000, -500, 0, 500]);
    for (const span of [0.003, 0.7, 4, 17, 920, 61000]) {
      const lead = step125(span, 6) / 10 ** Math.floor(Math.log10(step125(span, 6)) + 1e-9);
      expect([1, 2, 5].some((f) => Math.abs(lead - f) < 1e-9)).toBe(true);
    }
  });

  it("never number more than asked for, plus the one at the start", () => {
    for (let max = 0.1; max < 1000; max *= 1.37)
      for (const wanted of [2, 4, 7]) expect(ticks125(0, max, wanted).length).toBeLessThanOrEqual(wanted + 1);
  });

  it("include both ends when these are ticks, in spite of rounding", () => {
    expect(ticks125(0.1, 0.3, 2).map((t) => Number(t.toFixed(9)))).toEqual([0.1, 0.2, 0.3]);
  });

  it("of a logarithmic axis fall back to decades where 1-2-5 has no room", () => {
    expect(logTicks(0.01, 4, 8)).toEqual([0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2].map((t) => expect.closeTo(t, 9)));
    expect(logTicks(0.01, 4, 4)).toEqual([0.01, 0.1, 1].map((t) => expect.closeTo(t, 9)));
  });

  it("of a logarithmic axis become even inside one decade", () => {
    expect(logTicks(1.2, 1.9, 5).length).toBeGreaterThanOrEqual(3);
    expect(logTicks(0, 4, 5)).toEqual([]);
  });

  it("ask for just the digits of their step", () => {
    expect(decimalsOf(0.05)).toBe(2);
    expect(decimalsOf(20)).toBe(0);
  });
});
