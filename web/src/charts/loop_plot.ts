import type { Loop } from "./documents";
import type { Measures } from "../units/measures";
import type { Dash, PlotSpec, Series } from "./plot_spec";

const DASHES: Dash[] = ["solid", "long", "short", "chain"];

/** Bench loops: force over travel or over speed, one closed line for each run. */
export function loopPlot(loops: readonly Loop[], against: "travel" | "speed", measures: Measures): PlotSpec {
  const series = loops.map((loop, k): Series => {
    const last = k === loops.length - 1;
    return {
      key: `loop ${k}`,
      name: loop.name,
      x: against === "travel" ? loop.travel : loop.speed,
      y: loop.force,
      closed: true,
      ink: loop.measured ? "steel" : "ink",
      dash: loop.measured ? "short" : DASHES[k % DASHES.length]!,
      weight: last && !loop.measured ? "heavy" : "plain",
    };
  });
  const measured = loops.some((l) => l.measured) ? " Short dashes: measured." : "";
  return against === "travel"
    ? {
        title: "Bench loop, force over travel",
        caption: `The area inside is the work of one turn; a flat top or a hook is air or slack.${measured}`,
        x: { title: "travel", measure: measures.length },
        y: { title: "force", measure: measures.force, zero: true },
        series,
      }
    : {
        title: "Bench loop, force over speed",
        caption: `Opening and closing lie apart where gas, friction or the oil's give act.${measured}`,
        x: { title: "shaft speed", measure: measures.speed },
        y: { title: "force", measure: measures.force, zero: true },
        series,
      };
}
