import { spread } from "../../charts/spread";
import type { StackGeometry } from "../../api/model";

/** From the valve's metres to the page. The axis is the left edge of the half section, z = 0 the clamp plane. */
export interface Section {
  width: number; // of the drawing without its rows [px]
  height: number;
  axis: number; // x of the axis [px]
  plane: number; // y of z = 0 [px]
  radial: number; // [px/m]
  axial: number; // [px/m], radial times the exaggeration
  factor: number;
  x(r: number): number;
  y(z: number): number;
}

export const ROW = 44; // a row of the list is a touch target [px]
export const BODY = 74; // of piston drawn under the clamp plane [px]
export const FOOT = 30; // under the rows: the words of the lift [px]
const WASHER = 20;
const AXIS = 16;
const LEADERS = 30; // right of the parts: brackets, and where leaders turn to their rows [px]
const FACTORS = [1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32];

/** Highest point of the pile at rest, the float's gap included [m]. */
export function topOf(g: StackGeometry): number {
  return g.discs.reduce((top, d) => Math.max(top, d.height + d.thickness), g.height) + g.float_travel;
}

export function outermost(g: StackGeometry): number {
  return g.discs.reduce((r, d) => Math.max(r, d.outer_radius), Math.max(g.seat_radius * 1.06, g.pocket_outer_radius));
}

/**
 * The scale of the drawing. The exaggeration follows from the room and from the most lift that will be shown, not from
 * the present one: the picture must not jump while a finger bends it. It takes no more of `room` than it fills, but at
 * least `least`, which its rows need.
 */
export function sectionOf(g: StackGeometry, width: number, room: number, mostLift: number, least = 0): Section {
  const radial = (width - AXIS - LEADERS) / (outermost(g) * 1.02);
  const frame = BODY + WASHER + 34;
  // the washer is above the float; the pile under it may be bent up past that
  const tall = Math.max(topOf(g), g.height + Math.max(0, mostLift) + Math.max(0, g.seat_height));
  const factor = FACTORS.reduce((best, f) => (f * radial * tall <= Math.max(room, least) - frame ? f : best), 1);
  const height = Math.round(Math.max(least, frame + factor * radial * tall));
  const axial = radial * factor;
  const plane = height - BODY;
  return {
    width,
    height,
    axis: AXIS,
    plane,
    radial,
    axial,
    factor,
    x: (r) => AXIS + radial * r,
    y: (z) => plane - axial * z,
  };
}

/** Height that so many rows need beside a drawing. */
export function heightFor(rows: number): number {
  return rows * ROW + FOOT + 8;
}

/** Top edges of the rows, in the order of the list (face shim first, lowest on the page). */
export function rowsOf(g: StackGeometry | undefined, s: Section | null, n: number, groupOf: readonly (number | null)[], height: number): number[] {
  const bottom = height - FOOT;
  const wanted: number[] = [];
  for (let i = 0; i < n; ++i) {
    const k = groupOf[i] ?? null;
    const group = k === null ? undefined : g?.groups[k];
    const before = wanted[i - 1] ?? bottom - ROW / 2; // of the row under this one
    if (!g || !s || !group) {
      wanted.push(before - (i ? ROW : 0));
      continue;
    }
    const first = g.discs[group.first - 1]!;
    const last = g.discs[group.first + group.count - 2]!;
    wanted.push(Math.min(s.y((first.height + last.height + last.thickness) / 2), before));
  }
  return spread(wanted, ROW, ROW / 2, bottom - ROW / 2).map((y) => y - ROW / 2);
}

/** Piston with pocket and seat, post, washer: outlines that do not move. */
export function bodyPaths(g: StackGeometry, s: Section): { piston: string; post: string; washer: string; axis: string } {
  const bottom = s.plane + BODY - 16;
  const outer = s.x(outermost(g) * 1.02);
  const half = 0.0175 * g.seat_radius; // the seat's land is drawn as wide as it can be seen
  const landIn = g.seat_radius - half;
  const landOut = Math.max(g.seat_radius + half, g.land_outer_radius);
  const floor = s.plane + 38;
  const seat = s.y(g.seat_height);
  const relief = Math.max(seat, s.plane) + 16;
  const pocketIn = Math.max(g.pocket_inner_radius, g.clamp_radius);
  const pocketOut = Math.max(Math.min(g.pocket_outer_radius, landIn), pocketIn);
  const bore = s.x(g.bore_radius);
  const p = (...points: [number, number][]): string => `M${points.map(([x, y]) => `${round(x)} ${round(y)}`).join("L")}`;
  const piston = `${p(
    [bore, s.plane],
    [s.x(Math.max(g.boss_radius, g.bore_radius)), s.plane],
    [s.x(pocketIn), s.plane + 4],
    [s.x(pocketIn), floor],
    [s.x(pocketOut), floor],
    [s.x(pocketOut), seat],
    [s.x(landOut), seat],
    [s.x(landOut), relief],
    [outer, relief],
    [outer, bottom],
    [bore, bottom],
  )}Z`;
  const washerFoot = s.y(topOf(g));
  const top = washerFoot - WASHER - 8;
  return {
    piston,
    post: p([s.axis, top], [bore, top], [bore, bottom], [s.axis, bottom]),
    washer: `${p([bore, washerFoot - WASHER], [s.x(g.clamp_radius), washerFoot - WASHER], [s.x(g.clamp_radius), washerFoot], [bore, washerFoot])}Z`,
    axis: p([s.axis, top - 8], [s.axis, bottom + 8]),
  };
}

export function round(v: number): number {
  return Math.round(v * 10) / 10;
}
