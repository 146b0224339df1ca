import type { Scale } from "./axis";
import type { PlotSpec } from "./plot_spec";
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
function linesUnder(spec: PlotSpec, x: Scale, y: Scale, box: Box): number {
  let n = 0;
  const fx = spec.x.measure;
  const fy = spec.y.measure;
  for (const s of spec.series)
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

/** Where the words of a mark stand: near it, inside the frame, clear of other words, on as few lines as can be. */
export function placeWords(
  spec: PlotSpec,
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
  for (const dy of [-10, 22, -28, 40, -46, 58])
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
