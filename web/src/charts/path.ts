import type { Scale } from "./axis";

/** A coordinate in a path: a tenth of a pixel is finer than any screen shows. */
export function px(v: number): string {
  const r = Math.round(v * 10) / 10;
  return r === 0 ? "0" : String(r);
}

/** A piece of a line in one manner. */
export interface Run {
  d: string;
  dotted: boolean;
}

/** Far outside: coordinates are held to this so that no renderer chokes on them [px]. */
const FAR = 20000;

function held(v: number): number {
  return v > FAR ? FAR : v < -FAR ? -FAR : v;
}

/**
 * A line in runs: whole where the model holds, dotted where it left its range, nothing where there is no number or
 * (on a logarithmic axis) no positive one. `dotted[i]` speaks of the piece up to point i.
 */
export function runsOf(
  xs: ArrayLike<number>,
  ys: ArrayLike<number>,
  x: Scale,
  y: Scale,
  dotted?: readonly boolean[],
): Run[] {
  const runs: Run[] = [];
  const n = Math.min(xs.length, ys.length);
  const drawn = (i: number): boolean => {
    const a = xs[i]!;
    const b = ys[i]!;
    return Number.isFinite(a) && Number.isFinite(b) && !(x.log && a <= 0) && !(y.log && b <= 0);
  };
  const place = (i: number): string => `${px(held(x.px(xs[i]!)))} ${px(held(y.px(ys[i]!)))}`;
  let i = 0;
  while (i + 1 < n) {
    if (!drawn(i) || !drawn(i + 1)) {
      ++i;
      continue;
    }
    const isDotted = dotted?.[i + 1] ?? false;
    let d = `M${place(i)}`;
    while (i + 1 < n && drawn(i + 1) && (dotted?.[i + 1] ?? false) === isDotted) {
      ++i;
      d += `L${place(i)}`;
    }
    runs.push({ d, dotted: isDotted });
  }
  return runs;
}

/** The area between two lines. */
export function bandPath(
  xs: ArrayLike<number>,
  low: ArrayLike<number>,
  high: ArrayLike<number>,
  x: Scale,
  y: Scale,
): string {
  const n = Math.min(xs.length, low.length, high.length);
  let d = "";
  for (let i = 0; i < n; ++i) d += `${i ? "L" : "M"}${px(held(x.px(xs[i]!)))} ${px(held(y.px(high[i]!)))}`;
  for (let i = n - 1; i >= 0; --i) d += `L${px(held(x.px(xs[i]!)))} ${px(held(y.px(low[i]!)))}`;
  return d && `${d}Z`;
}
