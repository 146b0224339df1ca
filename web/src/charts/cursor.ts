import type { PlotLine } from "../api/model";
import type { DrawnPlot, Ink } from "./drawn";

/** Where the cursor is, in SI: on a plot of functions an x, on one of loops a point of the first loop. */
export interface Reading {
  key: string;
  name: string;
  ink: Ink;
  x: number;
  y: number; // as drawn
  own: number; // the series' own value: of one drawn down from zero, minus what is drawn
  dotted: boolean;
}

/** Index of the last entry not above `v`; -1 before the first. */
export function below(list: readonly number[], v: number): number {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (list[mid]! <= v) low = mid + 1;
    else high = mid;
  }
  return low - 1;
}

/** What each line reads at x; lines that do not reach there are left out. */
export function readingsAt(spec: DrawnPlot, x: number): Reading[] {
  const readings: Reading[] = [];
  for (const s of spec.lines) {
    if (s.behind || s.loop || s.x.length === 0) continue;
    const i = below(s.x, x);
    const tiny = 1e-9 * Math.abs(x);
    if (i < 0 && s.x[0]! > x + tiny) continue;
    if (i === s.x.length - 1 && s.x[i]! < x - tiny) continue;
    const j = Math.max(i, 0);
    const next = Math.min(j + 1, s.x.length - 1);
    const span = s.x[next]! - s.x[j]!;
    const y = s.y[j]! + (span > 0 ? ((x - s.x[j]!) / span) * (s.y[next]! - s.y[j]!) : 0);
    if (!Number.isFinite(y)) continue;
    readings.push({ key: s.key, name: s.column || s.name, ink: s.ink, x, y, own: s.down ? -y : y, dotted: s.dotted[x > s.x[j]! + tiny ? next : j] ?? false });
  }
  return readings;
}

/** A point of a loop. */
export function readingOn(s: PlotLine, index: number): Reading {
  const y = s.y[index]!;
  return { key: s.key, name: s.column || s.name, ink: s.ink, x: s.x[index]!, y, own: s.down ? -y : y, dotted: s.dotted[index] ?? false };
}

/** The places that the arrow keys step through: every x that some line was computed at. */
export function stops(spec: DrawnPlot): number[] {
  const all = new Set<number>();
  for (const s of spec.lines) if (!s.behind && !s.loop) for (const v of s.x) all.add(v);
  const sorted = [...all].sort((a, b) => a - b);
  // two builds may be computed at speeds that differ in the last digit
  const span = (sorted[sorted.length - 1] ?? 0) - (sorted[0] ?? 0);
  return sorted.filter((v, i) => i === 0 || v - sorted[i - 1]! > 1e-9 * span);
}

/** The stop after (or before) x, `by` further on. */
export function stepped(list: readonly number[], x: number | null, by: number): number | null {
  if (list.length === 0) return null;
  if (x === null) return by > 0 ? list[0]! : list[list.length - 1]!;
  const i = below(list, x + 1e-12 * Math.abs(x));
  const onStop = i >= 0 && Math.abs(list[i]! - x) <= 1e-9 * Math.abs(x);
  const next = by > 0 ? i + by : (onStop ? i : i + 1) + by;
  return list[Math.min(Math.max(next, 0), list.length - 1)]!;
}
