import type { DrawerShim } from "../../api/model";

/** A shim of the parts files whose sizes are all known; a bore of 0 is not stated, without a count it was not counted. */
export type ShimPart = DrawerShim & Required<Pick<DrawerShim, "outer_diameter" | "thickness" | "bore">>;

const SAME = 2e-6; // lengths closer than this are one size [m]
/** Where no parts file lists a shim, keys step by what shims are usually sold in (common practice, no source) [m]. */
const USUAL = { mm: { diameter: 1e-3, thickness: 0.05e-3 }, in: { diameter: 0.02 * 0.0254, thickness: 0.002 * 0.0254 } };

function same(a: number, b: number): boolean {
  return Math.abs(a - b) < SAME;
}

/** Shims that go on this post; a part without a stated bore may. */
export function partsFor(parts: readonly ShimPart[], bore: number | undefined): ShimPart[] {
  if (!bore) return [...parts];
  return parts.filter((p) => !(p.bore > 0) || p.bore > bore - 0.15e-3);
}

export interface Size {
  outer_diameter: number; // [m]
  thickness: number; // [m]
}

/**
 * The next size in one direction: of the parts in hand those alike in the other length, nearest first. Null when there
 * is none. Without any part: the usual steps.
 */
export function nextSize(
  parts: readonly ShimPart[],
  from: Size,
  what: keyof Size,
  by: 1 | -1,
  unit: "mm" | "in" = "mm",
): ShimPart | null {
  if (parts.length === 0) {
    const step = USUAL[unit][what === "thickness" ? "thickness" : "diameter"];
    // on to the next multiple, so that odd sizes come back into the usual row
    const k = from[what] / step;
    const next = (by > 0 ? Math.floor(k + 1 + 1e-6) : Math.ceil(k - 1 - 1e-6)) * step;
    return next > 0 ? { name: "", label: "", bore: 0, ...from, [what]: next } : null;
  }
  const other = what === "thickness" ? "outer_diameter" : "thickness";
  const row = parts.filter((p) => same(p[other], from[other]) && !same(p[what], from[what]) && (p[what] - from[what]) * by > 0);
  return row.reduce<ShimPart | null>((best, p) => (!best || (p[what] - best[what]) * by < 0 ? p : best), null);
}

/** The drawer as its compartments: a row for each diameter, a column for each thickness. */
export interface Drawer {
  thicknesses: number[];
  rows: { diameter: number; parts: (ShimPart | null)[] }[];
}

export function drawerOf(parts: readonly ShimPart[]): Drawer {
  const thicknesses = distinct(parts.map((p) => p.thickness));
  const rows = distinct(parts.map((p) => p.outer_diameter))
    .reverse()
    .map((diameter) => ({
      diameter,
      parts: thicknesses.map((t) => parts.find((p) => same(p.outer_diameter, diameter) && same(p.thickness, t)) ?? null),
    }));
  return { thicknesses, rows };
}

function distinct(values: number[]): number[] {
  return [...values].sort((a, b) => a - b).filter((v, i, all) => i === 0 || !same(v, all[i - 1]!));
}

/** How many of this shim the stack takes. */
export function usedOf(part: ShimPart, used: readonly (Size & { count: number })[]): number {
  return used
    .filter((u) => same(u.outer_diameter, part.outer_diameter) && same(u.thickness, part.thickness))
    .reduce((sum, u) => sum + u.count, 0);
}
