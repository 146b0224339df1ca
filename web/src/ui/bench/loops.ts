import type { BenchUnit, PlotSpec } from "../../api/model";

const LOOPS: readonly PlotSpec["id"][] = ["loops-over-travel", "damper-loops-over-travel", "loops-over-speed"];

/** A plot of the loops of all runs. */
export const isLoops = (plot: PlotSpec): boolean => LOOPS.includes(plot.id);

export const loopsOf = (unit: BenchUnit): PlotSpec[] => unit.plots.filter(isLoops);

/** The plot with just these of its loops: the rest of its lines as they are. */
export const withLoops = (plot: PlotSpec, drawn: readonly string[]): PlotSpec => ({
  ...plot,
  lines: plot.lines.map((line) => (line.loop ? { ...line, spare: !drawn.includes(line.key) } : line)),
});
