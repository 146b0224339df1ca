import { describe, expect, it } from "vitest";
import { padded, scaleOf } from "./axis";
import { between, shifted, zoomed } from "./zoom";

const whole = { min: 0, max: 4 };

describe("a scale", () => {
  it("gives back the value it was asked to place, linear and logarithmic", () => {
    for (const log of [false, true]) {
      const s = scaleOf({ min: 0.01, max: 4 }, 40, 640, log);
      for (const v of [0.01, 0.3, 4]) expect(s.value(s.px(v))).toBeCloseTo(v, 9);
    }
  });

  it("may run downwards, as force does on a page", () => {
    expect(scaleOf({ min: -100, max: 100 }, 200, 0).px(100)).toBeCloseTo(0);
  });

  it("leaves zero at the edge and gives a flat line room", () => {
    expect(padded({ min: 0, max: 10 }, 0.05)).toEqual({ min: 0, max: 10.5 });
    const flat = padded({ min: 3, max: 3 }, 0.05);
    expect(flat.min).toBeLessThan(3);
    expect(flat.max).toBeGreaterThan(3);
  });
});

describe("zoom", () => {
  it("keeps what lies under the finger where it is", () => {
    const shown = zoomed(whole, null, 1, 0.5)!;
    expect((1 - shown.min) / (shown.max - shown.min)).toBeCloseTo(1 / 4);
    expect(shown.max - shown.min).toBeCloseTo(2);
  });

  it("ends at the whole and stays inside it", () => {
    expect(zoomed(whole, { min: 1, max: 2 }, 1.5, 100)).toBeNull();
    const shown = zoomed(whole, { min: 3, max: 4 }, 4, 2)!;
    expect(shown.max).toBeLessThanOrEqual(4 + 1e-9);
    expect(shifted(whole, { min: 3, max: 4 }, 0.5)).toEqual({ min: 3, max: 4 });
  });

  it("goes no closer than a thousandth", () => {
    let shown: { min: number; max: number } | null = null;
    for (let i = 0; i < 60; ++i) shown = zoomed(whole, shown, 2, 0.5);
    expect(shown!.max - shown!.min).toBeCloseTo(4e-3, 6);
  });

  it("takes a drawn piece whichever way it was drawn, and no twitch", () => {
    expect(between(whole, 3, 1)).toEqual({ min: 1, max: 3 });
    expect(between(whole, 1, 1.001)).toBeNull();
  });

  it("works in ratios on a logarithmic axis", () => {
    const shown = zoomed({ min: 0.01, max: 1 }, null, 0.1, 0.5, true)!;
    expect(shown.max / shown.min).toBeCloseTo(10);
    expect(Math.sqrt(shown.max * shown.min)).toBeCloseTo(0.1);
  });
});
