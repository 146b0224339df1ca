import type { ForceLike, Ghost, StrokeWord } from "./documents";
import { trouble } from "./documents";
import type { Measures } from "../units/measures";
import type { PlotSpec, Series } from "./plot_spec";

/** Chamber pressures over shaft speed in one stroke, and the pressure at which air comes out of the oil. */
export function pressurePlot(
  force: ForceLike,
  stroke: StrokeWord,
  measures: Measures,
  ghost?: Ghost<ForceLike>,
): PlotSpec {
  const series: Series[] = [];
  const points = force.curves.find((c) => c.stroke === stroke)?.points ?? [];
  const x = points.map((p) => p.speed);
  const dotted = points.map((p) => p.cavitated);
  const atRisk = stroke === "compression" ? "rod" : "compression";
  const add = (key: string, name: string, y: number[], dash: Series["dash"], heavy: boolean): void => {
    const line: Series = { key, name, x, y, ink: stroke, dash, weight: heavy ? "heavy" : "plain" };
    series.push(key === atRisk ? { ...line, dotted } : line);
  };
  if (points.length) {
    const before = ghost?.of.curves.find((c) => c.stroke === stroke)?.points ?? [];
    if (before.length)
      series.push({
        key: "ghost",
        name: ghost!.name,
        column: `${ghost!.name}, ${atRisk} chamber`,
        x: before.map((p) => p.speed),
        y: before.map((p) => (atRisk === "rod" ? p.rod_pressure : p.compression_pressure)),
        ink: "steel",
        dash: "long",
        weight: "thin",
      });
    add("reservoir", "reservoir", points.map((p) => p.reservoir_pressure), "short", false);
    add("compression", "compression chamber", points.map((p) => p.compression_pressure), "solid", atRisk === "compression");
    add("rod", "rod chamber", points.map((p) => p.rod_pressure), "long", atRisk === "rod");
  }
  const cavitation = force.cavitation.find((c) => c.stroke === stroke);
  if (cavitation && points.length) {
    const y = cavitation.release_pressure;
    const ends = [0, x[x.length - 1]!];
    series.push({ key: "air", name: "air comes out", x: ends, y: [y, y], ink: "stop", dash: "short", weight: "plain" });
  }
  const lost = cavitation?.speed_lost;
  const caption =
    lost === undefined || lost === null
      ? `The ${atRisk} chamber keeps clear of the red line, below which the oil gives off air.`
      : `The ${atRisk} chamber meets the red line at ${measures.speed.text(lost)}: from there the oil gives off air.`;
  return {
    title: `Chamber pressures, ${stroke}`,
    caption: caption + trouble(force.outcome),
    x: { title: "shaft speed", measure: measures.speed, zero: true, log: true },
    y: { title: "absolute pressure", measure: measures.pressure, zero: true },
    series,
    dots: "draws air",
  };
}
