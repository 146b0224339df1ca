import type { PlotLine, PlotMark } from "../api/model";
import { padded, type Range, type Scale, scaleOf } from "./axis";
import type { Measure } from "../units/measures";
import { type Box, LINE, placeOnLine, placeWords } from "./mark_words";
import { bandPath, type Run, runsOf } from "./path";
import type { Dash, DrawnAxis, DrawnPlot, Ink, Weight } from "./drawn";
import { spread } from "./spread";
import { decimalsOf, logTicks, step125, ticks125 } from "./ticks";
import { SMALL, textWidth } from "./text_width";

export interface View {
  x: Range | null; // shown piece in SI; null: all
  y: Range | null;
  log: boolean;
}

export interface Tick {
  at: number; // [px]
  text: string;
}

export interface DrawnLine {
  key: string;
  runs: Run[];
  ink: Ink;
  dash: Dash;
  width: number;
  opacity: number;
}

export interface LineName {
  key: string;
  lines: string[];
  ink: Ink;
  y: number; // middle of its words [px]
  from: number; // where the line ends [px]
  semibold: boolean;
}

export interface PlacedMark {
  x: number;
  y: number;
  lines: string[];
  ink: Ink;
  words: Box;
  bare: boolean; // the name of a line that ends here: words without a ring
}

/** A plot with a size: all that the page needs to draw it. */
export interface PlotLayout {
  width: number;
  height: number;
  left: number;
  right: number;
  top: number;
  bottom: number;
  x: Scale; // display units
  y: Scale;
  whole: { x: Range; y: Range }; // SI, unzoomed
  xTicks: Tick[];
  yTicks: Tick[];
  zero: number | null; // [px]
  bands: { key: string; d: string; ink: Ink }[];
  lines: DrawnLine[];
  rings: { x: number; y: number; ink: Ink }[]; // where a line was computed, if it shows that
  names: LineName[];
  marks: PlacedMark[];
  rules: { at: number; text: string; ink: Ink; leftward: boolean }[]; // leftward: its words stand left of it
}

const WIDTHS: Record<Weight, number> = { heavy: 2.2, plain: 1.4, thin: 1 };

/** Display values of a list; the measure is linear, so two asks of it do for all. */
export function displayed(measure: Measure, si: readonly number[]): Float64Array {
  const offset = measure.value(0);
  const slope = measure.value(1) - offset;
  const out = new Float64Array(si.length);
  for (let i = 0; i < si.length; ++i) out[i] = offset + slope * si[i]!;
  return out;
}

function grow(range: Range, v: number): void {
  if (!Number.isFinite(v)) return;
  if (v < range.min) range.min = v;
  if (v > range.max) range.max = v;
}

function xRange(spec: DrawnPlot, log: boolean): Range {
  const range = { min: Infinity, max: -Infinity };
  for (const s of spec.lines) for (const v of s.x) if (!log || v > 0) grow(range, v);
  if (spec.x.zero && !log) grow(range, 0);
  if (!(range.max > range.min)) return { min: log ? 0.1 : 0, max: 1 };
  return range;
}

/** What the lines reach between two places of x, ends of pieces that cross the edge taken in between. */
function yRange(spec: DrawnPlot, shown: Range | null): Range {
  const range = { min: Infinity, max: -Infinity };
  const take = (xs: readonly number[], ys: readonly number[], free: boolean): void => {
    for (let i = 0; i < xs.length; ++i) {
      const x = xs[i]!;
      if (!shown || free || (x >= shown.min && x <= shown.max)) grow(range, ys[i]!);
      if (!shown || free || i === 0) continue;
      for (const edge of [shown.min, shown.max]) {
        const x0 = xs[i - 1]!;
        if (x0 < edge !== x < edge) grow(range, ys[i - 1]! + ((edge - x0) / (x - x0)) * (ys[i]! - ys[i - 1]!));
      }
    }
  };
  for (const s of spec.lines) take(s.x, s.y, s.loop);
  for (const b of spec.bands) {
    take(b.x, b.low, false);
    take(b.x, b.high, false);
  }
  if (spec.y.zero) grow(range, 0);
  if (!Number.isFinite(range.min)) return { min: 0, max: 1 };
  return padded(range, 0.04);
}

function shownIn(measure: Measure, range: Range): Range {
  const a = measure.value(range.min);
  const b = measure.value(range.max);
  return { min: Math.min(a, b), max: Math.max(a, b) };
}

function ticksOf(axis: DrawnAxis, scale: Scale, room: number): Tick[] {
  const length = Math.abs(scale.to - scale.from);
  const wanted = Math.max(2, Math.floor(length / room));
  const values = scale.log ? logTicks(scale.min, scale.max, wanted) : ticks125(scale.min, scale.max, wanted);
  const step = step125(scale.max - scale.min, wanted);
  // on a logarithmic axis each tick has the digits it needs, on an even one all have the same
  const decimals = (v: number): number => (scale.log ? (String(Number(v.toPrecision(6))).split(".")[1] ?? "").length : decimalsOf(step));
  return values.map((v) => ({
    at: scale.px(v),
    text: axis.measure.fixed(axis.measure.si(axis.magnitudes ? Math.abs(v) : v), decimals(v)),
  }));
}

/** A name in one line, or in two where the page is narrow and the name has a place to break. */
export function linesOf(name: string, room: number): string[] {
  if (textWidth(name) <= room) return [name];
  let best: string[] = [name];
  let least = Infinity;
  for (let i = name.indexOf(" "); i > 0; i = name.indexOf(" ", i + 1)) {
    const lines = [name.slice(0, i), name.slice(i + 1)];
    const wide = Math.max(...lines.map((l) => textWidth(l)));
    if (wide < least) {
      least = wide;
      best = lines;
    }
  }
  return best;
}

/** Ends short of the frame's right edge, or nowhere, as a loop: its name stands at it and not beside the frame. */
function endsShort(s: PlotLine, shown: Range, log: boolean): boolean {
  const last = s.x[s.x.length - 1];
  if (last === undefined) return false;
  if (s.loop) return true;
  const share = log
    ? Math.log(shown.max / last) / Math.log(shown.max / shown.min)
    : (shown.max - last) / (shown.max - shown.min);
  return share > 0.06;
}

/** Where a line leaves the frame on the right: its last shown value. */
function endOf(s: PlotLine, shown: Range): number | null {
  for (let i = s.x.length - 1; i >= 0; --i) {
    const x = s.x[i]!;
    if (x > shown.max || !Number.isFinite(s.y[i]!)) continue;
    if (x < shown.min) return null;
    const next = s.x[i + 1];
    if (next === undefined || !Number.isFinite(s.y[i + 1]!)) return s.y[i]!;
    return s.y[i]! + ((shown.max - x) / (next - x)) * (s.y[i + 1]! - s.y[i]!);
  }
  return null;
}

function namesOf(spec: DrawnPlot, shown: Range, log: boolean, y: Scale, room: number, top: number, bottom: number): LineName[] {
  const names: LineName[] = [];
  const add = (key: string, name: string, si: number | null, ink: Ink, semibold: boolean): void => {
    if (!name || si === null || !Number.isFinite(si)) return;
    const at = y.px(spec.y.measure.value(si));
    if (at < top - 40 || at > bottom + 40) return; // zoomed out of the picture
    names.push({ key, lines: linesOf(name, room), ink, y: 0, from: Math.min(Math.max(at, top), bottom), semibold });
  };
  for (const s of spec.lines)
    if (!endsShort(s, shown, log)) add(s.key, s.name, endOf(s, shown), s.ink, s.weight === "heavy");
  for (const b of spec.bands) {
    const n = b.x.length;
    if (n) add(b.key, b.name, 0.5 * (b.low[n - 1]! + b.high[n - 1]!), b.ink, false);
  }
  // one pitch for all: a name of two lines counts as two places, the second of them empty
  const wanted: number[] = [];
  const owner: number[] = [];
  names
    .map((_, i) => i)
    .sort((a, b) => names[a]!.from - names[b]!.from)
    .forEach((i) => {
      const n = names[i]!.lines.length;
      for (let k = 0; k < n; ++k) {
        wanted.push(names[i]!.from + (k - (n - 1) / 2) * LINE);
        owner.push(i);
      }
    });
  for (let i = 1; i < wanted.length; ++i) wanted[i] = Math.max(wanted[i]!, wanted[i - 1]!);
  const places = spread(wanted, LINE, top, bottom);
  names.forEach((name, i) => {
    const own = places.filter((_, k) => owner[k] === i);
    name.y = own.reduce((a, b) => a + b, 0) / Math.max(1, own.length);
  });
  return names;
}

function linesDrawn(spec: DrawnPlot, x: Scale, y: Scale): DrawnLine[] {
  const memo = new Map<readonly number[], Float64Array>();
  const xs = (list: readonly number[]): Float64Array => {
    let values = memo.get(list);
    if (!values) memo.set(list, (values = displayed(spec.x.measure, list)));
    return values;
  };
  return spec.lines.map((s) => ({
    key: s.key,
    runs: runsOf(xs(s.x), displayed(spec.y.measure, s.y), x, y, s.dotted),
    ink: s.ink,
    dash: s.dash,
    width: WIDTHS[s.weight],
    opacity: s.behind ? 0.45 : 1,
  }));
}

/** The plot in a box of this size. */
export function layoutOf(spec: DrawnPlot, width: number, height: number, view: View): PlotLayout {
  const whole = { x: xRange(spec, view.log), y: yRange(spec, null) };
  const shown = view.x ?? whole.x;
  const top = 26; // the title of the y axis stands above
  const bottom = height - 40;
  const y = scaleOf(shownIn(spec.y.measure, view.y ?? yRange(spec, view.x)), bottom, top);
  const yTicks = ticksOf(spec.y, y, 44);

  // margins follow from the words beside the frame
  const left = 8 + Math.max(16, ...yTicks.map((t) => textWidth(t.text)));
  const room = Math.max(64, 0.24 * width);
  const names = namesOf(spec, shown, view.log, y, room, top, bottom);
  const right = width - Math.max(10, ...names.map((n) => 14 + Math.max(...n.lines.map((l) => textWidth(l, SMALL, n.semibold)))));
  const x = scaleOf(shownIn(spec.x.measure, shown), left, Math.max(right, left + 60), view.log);

  const frame = { left, right: x.to, top, bottom };
  const marks: PlacedMark[] = [];
  const put = (m: PlotMark, bare: boolean): void => {
    const at = { x: x.px(spec.x.measure.value(m.x)), y: y.px(spec.y.measure.value(m.y)) };
    if (!(at.x >= left && at.x <= x.to && at.y >= top - 1 && at.y <= bottom + 1)) return;
    const lines = linesOf(m.text, 0.6 * (frame.right - left));
    const words = placeWords(spec, x, y, at, lines, frame, marks.map((p) => p.words));
    marks.push({ ...at, lines, ink: m.ink, words, bare });
  };
  for (const m of spec.marks) put(m, false);
  for (const s of spec.lines) {
    if (!s.name || s.behind || s.x.length === 0) continue;
    const end = s.x.length - 1;
    if (s.loop) {
      const lines = linesOf(s.name, 0.4 * (frame.right - left));
      const words = placeOnLine(spec, x, y, s, lines, frame, marks.map((p) => p.words));
      if (words) marks.push({ x: 0, y: 0, lines, ink: s.ink, words, bare: true });
    } else if (endsShort(s, shown, view.log)) {
      put({ x: s.x[end]!, y: s.y[end]!, text: s.name, ink: s.ink }, true);
    }
  }
  const zero = y.min <= 0 && y.max >= 0 && !y.log ? y.px(0) : null;
  return {
    width,
    height,
    left,
    right: x.to,
    top,
    bottom,
    x,
    y,
    whole,
    xTicks: ticksOf(spec.x, x, 56),
    yTicks,
    zero,
    bands: (spec.bands).map((b) => ({
      key: b.key,
      ink: b.ink,
      d: bandPath(
        displayed(spec.x.measure, b.x),
        displayed(spec.y.measure, b.low),
        displayed(spec.y.measure, b.high),
        x,
        y,
      ),
    })),
    lines: linesDrawn(spec, x, y),
    rings: spec.lines
      .filter((s) => s.markers)
      .flatMap((s) => s.x.map((v, i) => ({ x: x.px(spec.x.measure.value(v)), y: y.px(spec.y.measure.value(s.y[i]!)), ink: s.ink }))),
    names,
    marks,
    rules: spec.rules
      .map((r) => ({ at: x.px(spec.x.measure.value(r.x)), text: r.text, ink: r.ink }))
      .filter((r) => r.at >= left && r.at <= x.to)
      .map((r) => ({ ...r, leftward: r.at + 10 + textWidth(r.text) > x.to })),
  };
}
