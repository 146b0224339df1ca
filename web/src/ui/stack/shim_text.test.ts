import { describe, expect, it } from "vitest";
import cases from "../../../../src/units/shim_cases.json";
import { lengthsOf, partName, readShims, shimText, splitCount } from "./shim_text";

describe("a shim as it is typed", () => {
  it.each(cases.read)("reads as in the program: $text", ({ text, count, outer_diameter, thickness }) => {
    const shims = readShims(text);
    expect(shims?.count).toBe(count);
    expect(shims?.size?.outer_diameter).toBeCloseTo(outer_diameter, 12);
    expect(shims?.size?.thickness).toBeCloseTo(thickness, 12);
  });

  it.each(cases.unit_missing)("lacks only its unit, as in the program: %s", (text) => {
    expect(readShims(text)).toMatchObject({ size: null });
  });

  it.each(cases.refused)("is none, as in the program: %s", (text) => {
    expect(readShims(text)).toBeNull();
  });

  it("keeps the words of its lengths", () => {
    expect(readShims("3 x 24 x 0.150 mm")).toMatchObject({ diameter: { text: "24", unit: "mm" }, thickness: { text: "0.150", unit: "mm" } });
    expect(readShims("3 x 0.945 in x 6 thou")).toMatchObject({ diameter: { unit: "in" }, thickness: { text: "6", unit: "thou" } });
  });

  it("may name a part, whose name may look like lengths", () => {
    expect(partName("2 x shim 20x0.15")).toBe("20x0.15");
    expect(partName("20x0.15")).toBe("20x0.15");
    expect(partName("2 x 20x0.15")).toBe("20x0.15");
    expect(partName("2 x 20 x 0.15 mm")).toBeNull();
    expect(["2 x shim 20x0.15", "20x0.15", "2 x 20x0.15", "4 x face", "20 x 0.15 mm"].map((text) => splitCount(text).count)).toEqual([2, 1, 2, 4, 1]);
  });

  it("is written with no digit too many, in one unit or in two", () => {
    expect(shimText(1, lengthsOf({ label: "face", outer_diameter: 0.0235, thickness: 0.000125 }, "mm"))).toBe("1 x 23.5 x 0.125 mm");
    expect(shimText(2, lengthsOf({ label: "", outer_diameter: 0.024003, thickness: 0.0001524 }, "in"))).toBe("2 x 0.945 x 0.006 in");
    expect(shimText(3, lengthsOf({ label: "20 x 0.150 mm", outer_diameter: 0.02, thickness: 0.00015 }, "in"))).toBe("3 x 20 x 0.150 mm");
    expect(shimText(3, readShims("3 x 0.945 in x 6 thou")!)).toBe("3 x 0.945 in x 6 thou");
  });
});
