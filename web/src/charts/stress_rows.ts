/** What the bars read of a disc of a result document (SI). */
export interface DiscStressLike {
  number: number;
  stress: number;
  fatigue_margin?: number | null;
}

export interface StressRow {
  number: number;
  label: string;
  stress: number;
  share: number; // length of the bar, of 1
  limit: number | null; // place of what it may carry for ever, of 1; null: not known, or off the scale
  margin: number | null;
  over: boolean;
  worst: boolean;
}

/** One bar a disc as they lie, the clamp's end first. All bars have one scale; a limit past twice the hardest disc is off it. */
export function stressRows(discs: readonly DiscStressLike[], labels: readonly string[]): StressRow[] {
  const most = Math.max(0, ...discs.map((d) => d.stress));
  const limits = discs.flatMap((d) => (d.fatigue_margin ? [d.stress * d.fatigue_margin] : []));
  const full = Math.max(most, ...limits.filter((l) => l <= 2 * most)) || Math.max(most, 1);
  return discs
    .map((d) => {
      const limit = d.fatigue_margin ? (d.stress * d.fatigue_margin) / full : null;
      return {
        number: d.number,
        label: labels[d.number - 1] ?? `disc ${d.number}`,
        stress: d.stress,
        share: d.stress / full,
        limit: limit !== null && limit <= 1 ? limit : null,
        margin: d.fatigue_margin ?? null,
        over: (d.fatigue_margin ?? Infinity) < 1,
        worst: d.stress > 0 && d.stress === most,
      };
    })
    .reverse();
}
