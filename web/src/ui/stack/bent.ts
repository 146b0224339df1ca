import type { DiscDrawing, DiscView, StackGeometry, StackView } from "../../api/model";
import { round, type Section } from "./section";

/** Steps of tint and hatch from a disc that hardly works to the hardest. */
export const LEVELS = 5;

/** All that changes while a finger bends the stack: a few path strings, each for all discs together. */
export interface BentPaths {
  outline: string; // every disc as it lies now
  ghost: string; // every disc flat; empty at rest
  levels: string[]; // pieces of discs by how hard they work, from the least
  contacts: string; // ticks where a contact carries
  flow: { d: string; head: string; width: number } | null; // the way of the oil, as wide as the flow
  rims: { x: number; y: number }[]; // outer end of each disc, middle of its thickness
  lift: { x: number; top: number; foot: number } | null; // under the face disc at the seat
  hardest: { x: number; y: number } | null; // where the stress is highest
}

function viewOf(view: StackView | null | undefined, number: number): DiscView | undefined {
  const at = view?.discs[number - 1];
  return at?.number === number ? at : view?.discs.find((d) => d.number === number);
}

function flat(d: DiscDrawing, s: Section): string {
  const [a, b] = [round(s.x(d.bore_radius)), round(s.x(d.outer_radius))];
  const [low, high] = [round(s.y(d.height)), round(s.y(d.height + d.thickness))];
  return `M${a} ${low}L${b} ${low}L${b} ${high}L${a} ${high}Z`;
}

interface Edge {
  x: number[];
  low: number[]; // y of the underside [px]
  high: number[]; // y of the upper face [px]
  stress: number[] | null;
  free: number; // index of the first place that bends; what lies inside the clamp has no computed stress
}

/** A disc's two faces from the bore out; inside the clamp it lies as the clamp holds it. */
function edgeOf(d: DiscDrawing, shape: DiscView, s: Section): Edge {
  const x: number[] = [];
  const low: number[] = [];
  const high: number[] = [];
  const stress: number[] | null = shape.stress.length === shape.radius.length ? [] : null;
  const add = (r: number, z: number, hard: number): void => {
    x.push(round(s.x(r)));
    low.push(round(s.y(z)));
    high.push(round(s.y(z + d.thickness)));
    stress?.push(hard);
  };
  const held = d.bore_radius < shape.radius[0]! - 1e-9;
  if (held) add(d.bore_radius, shape.height[0]!, 0);
  for (let i = 0; i < shape.radius.length; ++i) add(shape.radius[i]!, shape.height[i]!, shape.stress[i] ?? 0);
  return { x, low, high, stress, free: held ? 1 : 0 };
}

function ring(e: Edge, from: number, to: number): string {
  let d = `M${e.x[from]} ${e.low[from]}`;
  for (let i = from + 1; i <= to; ++i) d += `L${e.x[i]} ${e.low[i]}`;
  for (let i = to; i >= from; --i) d += `L${e.x[i]} ${e.high[i]}`;
  return `${d}Z`;
}

/** The level of a stress: 0 the least, LEVELS - 1 the full one and all above. */
export function levelOf(stress: number, full: number): number {
  if (!(full > 0) || !(stress > 0)) return 0;
  return Math.min(LEVELS - 1, Math.floor((LEVELS * stress) / full));
}

function addLevels(e: Edge, full: number, levels: string[]): void {
  if (!e.stress) return;
  let start = e.free;
  const level = (i: number): number => levelOf(0.5 * (e.stress![i]! + e.stress![i + 1]!), full);
  for (let i = e.free; i + 1 < e.x.length; ++i) {
    const ends = i + 2 >= e.x.length || level(i + 1) !== level(i);
    if (!ends) continue;
    levels[level(i)] += ring(e, start, i + 1);
    start = i + 1;
  }
}

/** Height of a disc's underside at a radius, between the places where it was computed [m]. */
export function heightAt(d: DiscDrawing, shape: DiscView | undefined, r: number): number {
  if (!shape || shape.radius.length === 0) return d.height;
  const { radius, height } = shape;
  let i = 0;
  while (i + 1 < radius.length && radius[i + 1]! < r) ++i;
  const j = Math.min(i + 1, radius.length - 1);
  const span = radius[j]! - radius[i]!;
  const share = span > 0 ? Math.min(Math.max((r - radius[i]!) / span, 0), 1) : 0;
  return height[i]! + share * (height[j]! - height[i]!);
}

/** Ticks at the contacts that carry more than a hundredth of the hardest pressed one; the longer, the more. */
function contactTicks(g: StackGeometry, view: StackView, s: Section): string {
  const most = view.contacts.reduce((m, c) => Math.max(m, c.force), 0);
  let d = "";
  for (const c of view.contacts) {
    if (c.force < 0.01 * most) continue;
    const disc = g.discs[c.upper - 1];
    const below = g.discs[c.lower - 1];
    if (!disc && !below) continue;
    const z = disc ? heightAt(disc, viewOf(view, c.upper), c.radius) : heightAt(below!, viewOf(view, c.lower), c.radius) + below!.thickness;
    const half = 2.5 + 4 * Math.sqrt(c.force / most);
    d += `M${round(s.x(c.radius))} ${round(s.y(z) - half)}v${round(2 * half)}`;
  }
  return d;
}

/** The place of the highest stress, in the middle of its disc. */
function hardestPlace(g: StackGeometry, view: StackView, s: Section): { x: number; y: number } | null {
  let most = 0;
  let place: { x: number; y: number } | null = null;
  for (const d of g.discs) {
    const shape = viewOf(view, d.number);
    shape?.stress.forEach((stress, i) => {
      if (stress <= most) return;
      most = stress;
      place = { x: s.x(shape.radius[i]!), y: s.y(shape.height[i]! + d.thickness / 2) };
    });
  }
  return place;
}

const WIDEST = 18; // arrow of the full flow [px]

/** From the pocket under the face disc, over the seat and out. */
function flowArrow(g: StackGeometry, view: StackView, s: Section, fullFlow: number): BentPaths["flow"] {
  const flow = view.stack_flow ?? 0;
  if (!(flow > 0) || !(fullFlow > 0) || view.lift_at_seat <= 0) return null;
  const width = Math.max(1.5, WIDEST * Math.min(1, flow / fullFlow));
  const inner = Math.max(g.pocket_inner_radius, g.clamp_radius);
  const x = s.x(0.5 * (inner + Math.min(g.pocket_outer_radius, g.seat_radius)));
  const foot = s.plane + 36;
  const face = g.discs[0]!;
  const gap = s.y(g.seat_height + 0.5 * view.lift_at_seat);
  const seat = s.x(g.seat_radius);
  const out = Math.max(s.x(face.outer_radius), seat) + 4;
  const size = Math.max(6, width * 0.9);
  const tip = Math.min(out + size + 4, s.width - 2);
  const end = tip - size;
  const d = `M${round(x)} ${round(foot)}C${round(x)} ${round(gap + 6)} ${round((x + seat) / 2)} ${round(gap)} ${round(seat)} ${round(gap)}L${round(end)} ${round(gap)}`;
  const head = `M${round(tip)} ${round(gap)}L${round(end)} ${round(gap - size)}L${round(end)} ${round(gap + size)}Z`;
  return { d, head, width: round(width) };
}

/** The stack under load (or at rest) as path strings. `full`: the stress of the densest tint; `fullFlow`: of the widest arrow. */
export function bentPaths(g: StackGeometry, view: StackView | null | undefined, s: Section, full: number, fullFlow: number): BentPaths {
  const levels = new Array<string>(LEVELS).fill("");
  const rims: BentPaths["rims"] = [];
  let outline = "";
  let ghost = "";
  const loaded = view && view.pressure > 0;
  for (const d of g.discs) {
    const shape = viewOf(view, d.number);
    if (!shape || shape.radius.length < 2) {
      outline += flat(d, s);
      rims.push({ x: s.x(d.outer_radius), y: s.y(d.height + d.thickness / 2) });
      continue;
    }
    const e = edgeOf(d, shape, s);
    if (loaded) ghost += flat(d, s);
    outline += ring(e, 0, e.x.length - 1);
    if (loaded) addLevels(e, full, levels);
    const last = e.x.length - 1;
    rims.push({ x: e.x[last]!, y: (e.low[last]! + e.high[last]!) / 2 });
  }
  const hardest = loaded ? hardestPlace(g, view, s) : null;
  const face = g.discs[0];
  let lift: BentPaths["lift"] = null;
  if (loaded && face) {
    const z = heightAt(face, viewOf(view, 1), Math.min(g.seat_radius, face.outer_radius));
    lift = { x: s.x(g.seat_radius), top: s.y(z), foot: s.y(g.seat_height) };
  }
  return {
    outline,
    ghost,
    levels,
    contacts: loaded ? contactTicks(g, view, s) : "",
    flow: loaded && face ? flowArrow(g, view, s, fullFlow) : null,
    rims,
    lift,
    hardest,
  };
}

/** The view is of this stack, not of the one before the last change. */
export function isOf(view: StackView, g: StackGeometry): boolean {
  return (
    view.discs.length === g.discs.length &&
    g.discs.every((d) => {
      const shape = viewOf(view, d.number);
      const rim = shape?.radius[shape.radius.length - 1] ?? NaN;
      return Math.abs(rim - d.outer_radius) < 1e-6 && Math.abs(shape!.thickness - d.thickness) < 1e-7;
    })
  );
}

/** The disc under a finger: the one it is on, else the nearest within `reach` pixels. Its number, or 0. */
export function discAt(g: StackGeometry, view: StackView | null | undefined, s: Section, x: number, y: number, reach: number): number {
  const r = (x - s.axis) / s.radial;
  let best = 0;
  let least = reach;
  for (const d of g.discs) {
    if (r < d.bore_radius - reach / s.radial || r > d.outer_radius + reach / s.radial) continue;
    const held = Math.min(Math.max(r, d.bore_radius), d.outer_radius);
    const z = heightAt(d, viewOf(view, d.number), held);
    const [top, foot] = [s.y(z + d.thickness), s.y(z)];
    const far = y < top ? top - y : y > foot ? y - foot : 0;
    if (far < least) {
      least = far;
      best = d.number;
    }
  }
  return best;
}
