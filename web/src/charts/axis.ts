/** An axis on the page: from display units to pixels and back. */
export interface Scale {
  readonly log: boolean;
  readonly min: number; // shown range, display units
  readonly max: number;
  readonly from: number; // [px] of min
  readonly to: number; // [px] of max
  px(value: number): number;
  value(px: number): number;
}

export interface Range {
  min: number;
  max: number;
}

export function scaleOf(range: Range, from: number, to: number, log = false): Scale {
  const a = log ? Math.log(range.min) : range.min;
  const b = log ? Math.log(range.max) : range.max;
  const k = (to - from) / (b - a || 1);
  return {
    log,
    min: range.min,
    max: range.max,
    from,
    to,
    px: log ? (v) => from + k * (Math.log(v) - a) : (v) => from + k * (v - a),
    value: log ? (px) => Math.exp(a + (px - from) / k) : (px) => a + (px - from) / k,
  };
}

/** A range a little wider than the data; zero stays at the edge when the data begin there. */
export function padded(range: Range, share: number): Range {
  const span = range.max - range.min;
  if (!(span > 0)) {
    const room = Math.abs(range.max) * 0.1 || 1;
    return { min: range.min - room, max: range.max + room };
  }
  return {
    min: range.min === 0 ? 0 : range.min - share * span,
    max: range.max === 0 ? 0 : range.max + share * span,
  };
}
