/** Ticks at 1, 2 or 5 times a power of ten inside [min, max], about `wanted` steps. */
export function ticks125(min: number, max: number, wanted: number): number[] {
  const step = step125(max - min, wanted);
  const ticks: number[] = [];
  const first = Math.ceil(min / step - 1e-9);
  const last = Math.floor(max / step + 1e-9);
  for (let k = first; k <= last; ++k) ticks.push(k * step + 0); // + 0: no negative zero
  return ticks;
}

/** The smallest of 1, 2, 5 times a power of ten that cuts `span` into at most `wanted` pieces. */
export function step125(span: number, wanted: number): number {
  const raw = span / Math.max(1, wanted);
  if (!(raw > 0) || !Number.isFinite(raw)) return 1;
  const decade = 10 ** Math.floor(Math.log10(raw));
  for (const factor of [1, 2, 5]) if (factor * decade >= raw * (1 - 1e-9)) return factor * decade;
  return 10 * decade;
}

/** Ticks of a logarithmic axis: 1-2-5 in each decade where they have room, else the decades alone. */
export function logTicks(min: number, max: number, wanted: number): number[] {
  if (!(min > 0) || !(max > min)) return [];
  const inside = (factors: number[]): number[] => {
    const ticks: number[] = [];
    for (let decade = 10 ** Math.floor(Math.log10(min)); decade <= max * (1 + 1e-9); decade *= 10)
      for (const factor of factors) {
        const tick = factor * decade;
        if (tick >= min * (1 - 1e-9) && tick <= max * (1 + 1e-9)) ticks.push(tick);
      }
    return ticks;
  };
  const all = inside([1, 2, 5]);
  // zoomed into less than a decade: even steps say more than one or two ticks
  if (all.length < 3) return ticks125(min, max, wanted).filter((t) => t > 0);
  return all.length <= wanted + 2 ? all : inside([1]);
}

/** Digits behind the point that tell `step` from its neighbours. */
export function decimalsOf(step: number): number {
  return Math.min(8, Math.max(0, Math.ceil(-Math.log10(Math.abs(step)) - 1e-9)));
}
