import type { PlotLine } from "../api/model";
import type { Scale } from "./axis";
import type { DrawnPlot } from "./drawn";
import { SMALL, textWidth } from "./text_width";

/** From one line of words to the next [px]. */
export const LINE = SMALL + 3;

export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

function touches(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** How many lines run through the box, a heavy one counting as ten thin ones. */
function linesUnder(spec: DrawnPlot, x: Scale, y: Scale, box: Box): number {
  let n = 0;
  const fx = spec.x.measure;
  const fy = spec.y.measure;
  for (const s of spec.lines)
    for (let i = 0; i < s.x.length; ++i) {
      const px = x.px(fx.value(s.x[i]!));
      if (px < box.left || px > box.right) continue;
      const py = y.px(fy.value(s.y[i]!));
      if (py < box.top || py > box.bottom) continue;
      n += s.weight === "heavy" ? 10 : 1;
      break;
    }
  return n;
}

/**
 * Where the name of a loop stands: on its own line, which it interrupts as a contour's does, so that of several loops
 * inside each other each has its own name; clear of other names, over as little of other lines as can be.
 */
export function placeOnLine(
  spec: DrawnPlot,
  x: Scale,
  y: Scale,
  own: PlotLine,
  lines: readonly string[],
  frame: Box,
  taken: readonly Box[],
): Box | null {
  const wide = Math.max(...lines.map((l) => textWidth(l)));
  const tall = lines.length * LINE;
  const others = { ...spec, lines: spec.lines.filter((s) => s !== own) };
  const at = (i: number): { x: number; y: number } => ({
    x: x.px(spec.x.measure.value(own.x[i]!)),
    y: y.px(spec.y.measure.value(own.y[i]!)),
  });
  const n = own.x.length;
  const step = Math.max(1, Math.round(n / 48));
  let best: Box | null = null;
  let least = Infinity;
  for (let i = 0; i < n; i += step) {
    const p = at(i);
    const q = at((i + step) % n);
    const box = { left: p.x - wide / 2, right: p.x + wide / 2, top: p.y - tall / 2 - 1, bottom: p.y + tall / 2 - 1 };
    if (box.left < frame.left + 2 || box.right > frame.right - 2 || box.top < frame.top || box.bottom > frame.bottom) continue;
    if (taken.some((b) => touches(b, box))) continue;
    const steep = Math.abs(q.y - p.y) / Math.max(1, Math.abs(q.x - p.x));
    const middle = Math.abs(p.x - (frame.left + frame.right) / 2) / (frame.right - frame.left);
    const cost = 6 * linesUnder(others, x, y, box) + 4 * steep + 3 * middle;
    if (cost < least) {
      least = cost;
      best = box;
    }
  }
  return best;
}

/** Above the mark and below it in turn, a line further each time; the far ones only where many marks meet. */
const STEPS = [-10, 22, -28, 40, -46, 58, -64, 76, -82, 94, -100, 112];

/** Where the words of a mark stand: near it, inside the frame, clear of other words, on as few lines as can be. */
export function placeWords(
  spec: DrawnPlot,
  x: Scale,
  y: Scale,
  at: { x: number; y: number },
  lines: readonly string[],
  frame: Box,
  taken: readonly Box[],
): Box {
  const wide = Math.max(...lines.map((l) => textWidth(l)));
  const more = (lines.length - 1) * LINE;
  let best: Box | undefined;
  let least = Infinity;
  for (const dy of STEPS)
    for (const side of ["right", "left", "middle"] as const) {
      const wanted = side === "right" ? at.x + 8 : side === "left" ? at.x - 8 - wide : at.x - wide / 2;
      const left = side === "middle" ? Math.min(Math.max(wanted, frame.left + 2), frame.right - wide - 2) : wanted;
      const up = dy < 0 ? more : 0; // words of two lines grow away from their place
      const box = { left, right: left + wide, top: at.y + dy - SMALL - up, bottom: at.y + dy + 3 + more - up };
      if (box.left < frame.left || box.right > frame.right || box.top < frame.top || box.bottom > frame.bottom) continue;
      if (taken.some((b) => touches(b, box))) continue;
      const cost = linesUnder(spec, x, y, box) + 0.15 * Math.abs(dy); // seven pixels away or one line under
      if (cost < least) {
        least = cost;
        best = box;
      }
    }
  const left = Math.min(Math.max(frame.left, at.x + 8), Math.max(frame.left, frame.right - wide));
  return best ?? { left, right: left + wide, top: at.y - 10 - SMALL - more, bottom: at.y - 7 };
}
