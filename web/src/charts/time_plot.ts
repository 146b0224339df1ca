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

/**
 * Until when the force of the rod let go is worth a look: a little after it has fallen for good to a fiftieth of the
 * largest of all states. What follows is a rod that creeps out, and a line at zero.
 */
export function deadAfter(traces: readonly TraceLike[]): number {
  const most = Math.max(0, ...traces.map((trace) => largest(trace.force)));
  const last = traces.map((trace) => {
    let i = trace.force.length - 1;
    while (i > 0 && Math.abs(trace.force[i]!) <= 0.02 * most) --i;
    return trace.time[Math.min(i + 1, trace.time.length - 1)] ?? 0;
  });
  return 1.25 * Math.max(0, ...last);
}

function until(trace: TraceLike, end: number): TraceLike {
  const n = trace.time.filter((t) => t <= end).length;
  return { ...trace, time: trace.time.slice(0, n), travel: trace.travel.slice(0, n), force: trace.force.slice(0, n) };
}

/** The rod let go: how it comes out, and the force that speeds it up, in each state of the unit. */
export function releasePlot(all: readonly TraceLike[], of: "travel" | "force", measures: Measures): PlotSpec {
  const end = of === "force" ? deadAfter(all) : Infinity;
  const traces = all.map((trace) => until(trace, end));
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
    caption: "What is left of the push of springs and reservoir after valves and seals: it speeds the rod up. Shown until it has died away. Numbers: the well bled unit, listed below.",
    x,
    y: { title: "force on the rod", measure: measures.force, zero: true },
    series,
    marks: marksOf(traces[0]?.events ?? [], 0).filter((mark) => mark.x <= end),
  };
}
