import type { PlotLine, PlotSpec } from "../api/model";

/** A line of a plot for tests, heavy and in ink unless told otherwise. */
export const sampleLine = (key: string, x: number[], y: number[], more: Partial<PlotLine> = {}): PlotLine => ({
  key,
  name: key,
  column: "",
  x,
  y,
  dotted: [],
  ink: "ink",
  dash: "solid",
  weight: "heavy",
  behind: false,
  loop: false,
  down: false,
  markers: false,
  spare: false,
  ...more,
});

/** Force over speed with these lines. */
export const samplePlot = (lines: PlotLine[], more: Partial<PlotSpec> = {}): PlotSpec => ({
  id: "force-over-speed",
  name: "force",
  title: "t",
  caption: "c.",
  x: { title: "shaft speed", kind: "speed", reference: "none", thickness: false, zero: true, magnitudes: false, ratios: true },
  y: { title: "force", kind: "force", reference: "none", thickness: false, zero: true, magnitudes: true, ratios: false },
  lines,
  bands: [],
  marks: [],
  rules: [],
  dots: "",
  events_of: "",
  ...more,
});
