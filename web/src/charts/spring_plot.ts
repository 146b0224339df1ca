import type { Ghost, SpringLike } from "./documents";
import { trouble } from "./documents";
import type { Measures } from "../units/measures";
import type { Dash, Mark, PlotSpec, Rule, Series } from "./plot_spec";

const SHARES: Dash[] = ["long", "short", "chain", "solid"];

/** Spring force over travel with what each spring gives, and where the machine sags to. */
export function springPlot(springs: SpringLike, measures: Measures, ghost?: Ghost<SpringLike>): PlotSpec {
  const x = springs.points.map((p) => p.travel);
  const series: Series[] = [];
  if (springs.names.length > 1)
    springs.names.forEach((name, k) =>
      series.push({
        key: `share ${k}`,
        name,
        x,
        y: springs.points.map((p) => p.shares[k] ?? NaN),
        ink: "steel",
        dash: SHARES[k % SHARES.length]!,
        weight: "plain",
      }),
    );
  if (ghost)
    series.push({
      key: "ghost",
      name: ghost.name,
      x: ghost.of.points.map((p) => p.travel),
      y: ghost.of.points.map((p) => p.force),
      ink: "steel",
      dash: "solid",
      weight: "thin",
    });
  const all = springs.names.length > 1 ? "all springs" : (springs.names[0] ?? "spring");
  series.push({
    key: "sum",
    name: all,
    x,
    y: springs.points.map((p) => p.force),
    ink: "ink",
    dash: "solid",
    weight: "heavy",
  });

  const marks: Mark[] = [];
  for (const sag of springs.sag) {
    if (sag.topped_out || sag.bottomed) continue;
    const at = springs.points.reduce<SpringLike["points"][number] | undefined>(
      (best, p) => (!best || Math.abs(p.travel - sag.travel) < Math.abs(best.travel - sag.travel) ? p : best),
      undefined,
    );
    if (at)
      marks.push({
        x: sag.travel,
        y: at.force,
        text: `${sag.name} sag ${measures.length.text(sag.travel)}`,
        ink: "ink",
      });
  }
  const rules: Rule[] = [];
  let caption =
    springs.names.length > 1
      ? "Force of one unit from fully out. Heavy: the sum; thin: what each spring gives."
      : "Force of one unit from fully out.";
  if (springs.air_end_travel) {
    rules.push({ x: springs.air_end_travel, text: "air used up", ink: "stop" });
    caption += ` Red: at ${measures.length.text(springs.air_end_travel)} the air is used up and the leg is full of oil.`;
  }
  if (springs.coil_bind_travel) {
    rules.push({ x: springs.coil_bind_travel, text: "coil solid", ink: "stop" });
    caption += ` Red: at ${measures.length.text(springs.coil_bind_travel)} a coil is solid.`;
  }
  return {
    title: "Spring force over travel",
    caption: caption + trouble(springs.outcome),
    x: { title: "travel", measure: measures.length, zero: true },
    y: { title: "force", measure: measures.force, zero: true },
    series,
    marks,
    rules,
  };
}
