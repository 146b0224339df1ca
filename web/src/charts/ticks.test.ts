import { describe, expect, it } from "vitest";
import cases from "../../../src/report/plot_cases.json"; // as in print
import { numberText } from "../units/format";
import { decimalsOf, logTicks, step125, ticks125 } from "./ticks";

describe("ticks", () => {
  it("stand at 1, 2 or 5 times a power of ten", () => {
    for (const { min, max, wanted, ticks } of cases.ticks) expect(ticks125(min, max, wanted)).toEqual(ticks.map((t) => expect.closeTo(t, 9)));
    for (const span of [0.003, 0.7, 4, 17, 920, 61000]) {
      const lead = step125(span, 6) / 10 ** Math.floor(Math.log10(step125(span, 6)) + 1e-9);
      expect([1, 2, 5].some((f) => Math.abs(lead - f) < 1e-9)).toBe(true);
    }
  });

  it("never number more than asked for, plus the one at the start", () => {
    for (let max = 0.1; max < 1000; max *= 1.37)
      for (const wanted of [2, 4, 7]) expect(ticks125(0, max, wanted).length).toBeLessThanOrEqual(wanted + 1);
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
    for (const { value, step, text } of cases.digits) expect(numberText(value, "number", "metric", { decimals: decimalsOf(step) })).toBe(text);
  });
});
