import type { Range } from "./axis";

/** No closer than a thousandth of the whole: past that there are only two points of a curve on the page. */
const CLOSEST = 1e-3;

function warp(v: number, log: boolean): number {
  return log ? Math.log(v) : v;
}

function unwarp(v: number, log: boolean): number {
  return log ? Math.exp(v) : v;
}

/** `shown` made `factor` times as wide around `centre`, inside `whole`; null when that is the whole. */
export function zoomed(whole: Range, shown: Range | null, centre: number, factor: number, log = false): Range | null {
  const a = warp(whole.min, log);
  const b = warp(whole.max, log);
  const from = warp((shown ?? whole).min, log);
  const to = warp((shown ?? whole).max, log);
  const span = Math.min(Math.max((to - from) * factor, (b - a) * CLOSEST), b - a);
  if (span >= (b - a) * (1 - 1e-9)) return null;
  // what lies under the finger stays there
  const at = Math.min(Math.max(warp(centre, log), from), to);
  const share = to > from ? (at - from) / (to - from) : 0.5;
  return inside(at - share * span, span, a, b, log);
}

/** `shown` moved by `share` of its width, inside `whole`. */
export function shifted(whole: Range, shown: Range | null, share: number, log = false): Range | null {
  if (!shown) return null;
  const from = warp(shown.min, log);
  const span = warp(shown.max, log) - from;
  return inside(from + share * span, span, warp(whole.min, log), warp(whole.max, log), log);
}

/** The piece between two places, or null when it is too small to be meant. */
export function between(whole: Range, a: number, b: number, log = false): Range | null {
  const min = Math.max(Math.min(a, b), whole.min);
  const max = Math.min(Math.max(a, b), whole.max);
  const all = warp(whole.max, log) - warp(whole.min, log);
  return max > min && warp(max, log) - warp(min, log) > CLOSEST * all ? { min, max } : null;
}

function inside(from: number, span: number, a: number, b: number, log: boolean): Range {
  const start = Math.min(Math.max(from, a), b - span);
  return { min: unwarp(start, log), max: unwarp(start + span, log) };
}
