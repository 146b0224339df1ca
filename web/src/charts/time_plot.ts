import type { EventLike } from "./documents";
import { type BenchRunLike, forceOf } from "./loop_plot";
import type { Measures } from "../units/measures";
import type { Dash, Mark, PlotSpec, Series } from "./plot_spec";

const DASHES: Dash[] = ["solid", "long", "short", "chain", "solid"];

/** Of events, those that a plot marks by number and a table lists. */
export const MOST_MARKS = 12;

/** The rod let go, over time: one state of the try by hand. */
export interface TraceLike {
  name: string;
  time: number[];
  travel: number[];
  force: number[];
  events: EventLike[];
}

/** A time axis starts where the run does. */
const since = (times: readonly number[], begin: number): number[] => times.map((t) => t - begin);

function marksOf(events: readonly EventLike[], begin: number): Mark[] {
  return events.slice(0, MOST_MARKS).map((e, i) => ({ x: e.time - begin, y: e.force, text: String(i + 1), ink: "copper" }));
}

const largest = (values: readonly number[]): number => values.reduce((most, v) => Math.max(most, Math.abs(v)), 0);

/** Force over the time of a step; with springs in also theirs and the damper's. */
export function stepPlot(run: BenchRunLike, springsIn: boolean, measures: Measures): PlotSpec {
  const { loop } = run;
  const begin = loop.time[0] ?? 0;
  const x = since(loop.time, begin);
  const series: Series[] = [{ key: "all", name: springsIn ? "all" : "force", x, y: loop.force, ink: "ink", dash: "solid", weight: "heavy" }];
  if (springsIn) {
    series.push({ key: "damper", name: "damper alone", x, y: forceOf(run, "damper"), ink: "compression", dash: "long", weight: "plain" });
    series.push({ key: "springs", name: "springs", x, y: loop.springs, ink: "steel", dash: "short", weight: "thin" });
  }
  if (largest(loop.lock) > 0.01 * largest(loop.force)) series.push({ key: "lock", name: "oil lock", x, y: loop.lock, ink: "look", dash: "chain", weight: "plain" });
  return {
    title: `Force over time: ${run.name}`,
    caption: "The rod goes its way once and is held. Numbers: what happened, listed below.",
    x: { title: "time", measure: measures.time, zero: true },
    y: { title: "force", measure: measures.force, zero: true },
    series,
    marks: marksOf(run.events, begin),
  };
}

/** The rod let go: how it comes out, and the force that speeds it up, in each state of the unit. */
export function releasePlot(traces: readonly TraceLike[], of: "travel" | "force", measures: Measures): PlotSpec {
  const series = traces.map(
    (trace, k): Series => ({
      key: trace.name,
      name: trace.name,
      x: trace.time,
      y: trace[of],
      ink: k === traces.length - 1 && k > 0 ? "look" : "ink",
      dash: DASHES[Math.min(k, DASHES.length - 1)]!,
      weight: k === 0 ? "heavy" : "plain",
    }),
  );
  const x = { title: "time since it was let go", measure: measures.time, zero: true };
  if (of === "travel")
    return {
      title: "Let go: travel over time",
      caption: "How the rod comes out by itself, in each state of the unit.",
      x,
      y: { title: "travel from fully out", measure: measures.length, zero: true },
      series,
    };
  return {
    title: "Let go: force over time",
    caption: "What is left of the push of springs and reservoir after valves and seals: it speeds the rod up. Numbers: the well bled unit, listed below.",
    x,
    y: { title: "force on the rod", measure: measures.force, zero: true },
    series,
    marks: marksOf(traces[0]?.events ?? [], 0),
  };
}
