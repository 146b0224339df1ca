import { describe, expect, it } from "vitest";
import { drawerOf, nextSize, partsFor, type ShimPart, usedOf } from "./parts";

const shim = (d: number, t: number, in_hand = 4, bore = 6): ShimPart => ({
  name: `${d}x${t}`,
  label: `${d} x ${t} mm`,
  outer_diameter: d * 1e-3,
  thickness: t * 1e-3,
  bore: bore * 1e-3,
  in_hand,
});
const drawer = [shim(21, 0.1), shim(20, 0.1), shim(17, 0.1), shim(20, 0.15), shim(20, 0.2), shim(23, 0.15, 2, 18)];
const at = (d: number, t: number): { outer_diameter: number; thickness: number } => ({ outer_diameter: d * 1e-3, thickness: t * 1e-3 });

describe("stepping through the parts in hand", () => {
  it("goes to the nearest of the same thickness, or of the same diameter", () => {
    expect(nextSize(drawer, at(20, 0.1), "outer_diameter", -1)?.label).toBe("17 x 0.1 mm");
    expect(nextSize(drawer, at(20, 0.1), "outer_diameter", 1)?.label).toBe("21 x 0.1 mm");
    expect(nextSize(drawer, at(20, 0.1), "thickness", 1)?.label).toBe("20 x 0.15 mm");
    expect(nextSize(drawer, at(18.5, 0.1), "outer_diameter", 1)?.label).toBe("20 x 0.1 mm");
  });

  it("stops where the drawer ends", () => {
    expect(nextSize(drawer, at(21, 0.1), "outer_diameter", 1)).toBeNull();
    expect(nextSize(drawer, at(21, 0.1), "thickness", 1)).toBeNull();
  });

  it("without any part goes by the usual steps and never below nothing", () => {
    expect(nextSize([], at(23.5, 0.15), "outer_diameter", 1)?.outer_diameter).toBeCloseTo(0.024, 9);
    expect(nextSize([], at(23.5, 0.15), "outer_diameter", -1)?.outer_diameter).toBeCloseTo(0.023, 9);
    expect(nextSize([], at(24, 0.15), "thickness", 1)?.thickness).toBeCloseTo(0.0002, 9);
    expect(nextSize([], at(24, 0.05), "thickness", -1)).toBeNull();
  });
});

describe("the drawer", () => {
  it("has a row for each diameter, largest first, and an empty compartment where nothing is", () => {
    const d = drawerOf(drawer);
    expect(d.rows.map((r) => Math.round(r.diameter * 1e3))).toEqual([23, 21, 20, 17]);
    expect(d.thicknesses.map((t) => Number((t * 1e3).toFixed(3)))).toEqual([0.1, 0.15, 0.2]);
    expect(d.rows[1]!.parts.map((p) => p?.label ?? null)).toEqual(["21 x 0.1 mm", null, null]);
  });

  it("leaves out what does not go over the post, keeps ring shims", () => {
    expect(partsFor([shim(20, 0.1, 4, 5), ...drawer], 6e-3)).toHaveLength(drawer.length);
    expect(partsFor(drawer, undefined)).toHaveLength(drawer.length);
  });

  it("counts what the stack takes of each", () => {
    expect(usedOf(drawer[1]!, [{ ...at(20, 0.1), count: 3 }, { ...at(20, 0.15), count: 2 }, { ...at(20, 0.1), count: 1 }])).toBe(4);
  });
});
