import type { PlotAxis, PlotLine, PlotSpec } from "../api/model";
import type { Measure, Measures } from "../units/measures";

export type Ink = PlotLine["ink"];
export type Dash = PlotLine["dash"];
export type Weight = PlotLine["weight"];

export interface DrawnAxis extends PlotAxis {
  readonly measure: Measure;
}

/** A plot of the document with what the page knows beside it: units, another build behind, where a slider stands. */
export interface DrawnPlot extends Omit<PlotSpec, "x" | "y"> {
  readonly x: DrawnAxis;
  readonly y: DrawnAxis;
}

/** Another build, whose heavy lines stand thin and grey behind. */
export interface Ghost {
  readonly name: string;
  readonly plot: PlotSpec;
}

/** The plot of that id of a unit or a stack, if it has one. */
export const plotOf = (of: { plots: PlotSpec[] } | undefined, id: PlotSpec["id"]): PlotSpec | undefined => of?.plots.find((plot) => plot.id === id);

/** The heading of a line in a table. */
export const headingOf = (line: PlotLine): string => line.column || line.name || line.key;

const ghostLine = (line: PlotLine, name: string): PlotLine => ({
  ...line,
  key: `ghost ${line.key}`,
  name,
  column: `${name}, ${line.column || line.name}`,
  ink: "steel",
  weight: "thin",
});

const isHeavy = (line: PlotLine): boolean => line.weight === "heavy";

/** `at`: where a slider stands on the x axis. Spare lines are left out. */
export function drawnPlot(plot: PlotSpec, measures: Measures, ghost?: Ghost, at?: number): DrawnPlot {
  const own = plot.lines.filter((line) => !line.spare);
  const before = ghost ? ghost.plot.lines.filter(isHeavy).map((line) => ghostLine(line, ghost.name)) : [];
  const first = own.findIndex(isHeavy);
  const behind = first < 0 ? own.length : first;
  return {
    ...plot,
    caption: ghost ? `${plot.caption} Thin grey: ${ghost.name}.` : plot.caption,
    x: { ...plot.x, measure: measures.of(plot.x) },
    y: { ...plot.y, measure: measures.of(plot.y) },
    lines: [...own.slice(0, behind), ...before, ...own.slice(behind)],
    rules: at === undefined ? plot.rules : [...plot.rules, { x: at, text: "", ink: "copper" }],
  };
}
