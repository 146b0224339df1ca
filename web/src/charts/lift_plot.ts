import type { Ghost, LiftLike } from "./documents";
import { trouble } from "./documents";
import type { Measures } from "../units/measures";
import type { PlotSpec, Series } from "./plot_spec";

/** Lift over pressure drop, at the seat and at the rim. */
export function liftPlot(stack: LiftLike, measures: Measures, ghost?: Ghost<LiftLike>, pressure?: number): PlotSpec {
  const line = stack.line;
  const series: Series[] = [];
  if (ghost)
    series.push({
      key: "ghost",
      name: ghost.name,
      x: ghost.of.line.pressure,
      y: ghost.of.line.lift_at_seat,
      ink: "steel",
      dash: "solid",
      weight: "thin",
    });
  series.push(
    { key: "rim", name: "at the rim", x: line.pressure, y: line.lift_at_rim, ink: "steel", dash: "short", weight: "plain" },
    { key: "seat", name: "at the seat", x: line.pressure, y: line.lift_at_seat, ink: "ink", dash: "solid", weight: "heavy" },
  );
  return {
    title: "Lift over pressure drop",
    caption: `How far the face shim stands off its seat as pressure rises. Theory: ${stack.theory}.${trouble(stack.outcome)}`,
    x: { title: "pressure drop over the face shim", measure: measures.pressure_difference, zero: true },
    y: { title: "lift", measure: measures.thickness, zero: true },
    series,
    rules: pressure === undefined ? [] : [{ x: pressure, text: "", ink: "copper" }],
  };
}
