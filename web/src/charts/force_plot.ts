import type { ClickFamilyLike, ForceCurveLike, ForceLike, Ghost } from "./documents";
import { trouble } from "./documents";
import type { Measures } from "../units/measures";
import type { Ink, Mark, PlotSpec, Series } from "./plot_spec";

function clicksText(clicks: number): string {
  return `${clicks} click${clicks === 1 ? "" : "s"}`;
}

function isDown(stroke: string): boolean {
  return stroke === "rebound";
}

function inkOf(stroke: string): Ink {
  return isDown(stroke) ? "rebound" : "compression";
}

function signed(values: readonly number[], stroke: string): number[] {
  return isDown(stroke) ? values.map((v) => -v) : [...values];
}

/** Which members of a family are drawn: so few that the fan stays a fan, the ends always. */
export function inFan(n: number, lines = 7): number[] {
  if (n <= lines) return Array.from({ length: n }, (_, k) => k);
  const chosen = new Set<number>();
  for (let k = 0; k < lines; ++k) chosen.add(Math.round((k * (n - 1)) / (lines - 1)));
  return [...chosen];
}

/** The other clicks as a tint behind the present curve. Only the outermost are named. */
function fanOf(family: ClickFamilyLike, alone: boolean): Series[] {
  const fan: Series[] = [];
  const drawn = inFan(family.members.length);
  for (const k of drawn) {
    const member = family.members[k]!;
    if (member.present) continue;
    const outermost = k === 0 || k === family.members.length - 1;
    const clicks = clicksText(member.clicks);
    fan.push({
      key: `${family.stroke} ${family.adjuster} ${member.clicks}`,
      name: outermost ? (alone ? clicks : `${family.adjuster}, ${clicks}`) : "",
      column: `${family.stroke}, ${family.adjuster} ${clicks}`,
      x: family.speed,
      y: signed(member.force, family.stroke),
      dotted: member.cavitated,
      ink: inkOf(family.stroke),
      dash: isDown(family.stroke) ? "long" : "solid",
      weight: "thin",
      opacity: 0.45,
      behind: true,
      down: isDown(family.stroke),
    });
  }
  return fan;
}

function lineOf(curve: ForceCurveLike, name: string): Series {
  return {
    key: curve.stroke,
    name,
    x: curve.points.map((p) => p.speed),
    y: signed(
      curve.points.map((p) => p.force),
      curve.stroke,
    ),
    dotted: curve.points.map((p) => p.cavitated),
    ink: inkOf(curve.stroke),
    dash: isDown(curve.stroke) ? "long" : "solid",
    weight: "heavy",
    down: isDown(curve.stroke),
  };
}

function onset(curve: ForceCurveLike, force: ForceLike, measures: Measures): Mark[] {
  const first = curve.points.find((p) => p.cavitated);
  if (!first) return [];
  const chamber = force.cavitation.find((c) => c.stroke === curve.stroke)?.chamber ?? "a chamber";
  return [
    {
      x: first.speed,
      y: isDown(curve.stroke) ? -first.force : first.force,
      text: `${chamber} draws air past ${measures.speed.text(first.speed)}`,
      ink: "stop",
    },
  ];
}

/** Force over shaft speed: compression up, rebound down from one zero, the fan of clicks behind. */
export function forcePlot(force: ForceLike, measures: Measures, ghost?: Ghost<ForceLike>, speed?: number): PlotSpec {
  const series: Series[] = [];
  const families = (stroke: string): ClickFamilyLike[] => force.families.filter((f) => f.stroke === stroke);
  for (const family of force.families) series.push(...fanOf(family, families(family.stroke).length === 1));
  for (const curve of ghost?.of.curves ?? [])
    series.push({
      ...lineOf(curve, ghost!.name),
      key: `ghost ${curve.stroke}`,
      column: `${ghost!.name}, ${curve.stroke}`,
      ink: "steel",
      weight: "thin",
    });
  const marks: Mark[] = [];
  for (const curve of force.curves) {
    const own = families(curve.stroke);
    const present = own.length === 1 ? own[0]!.members.find((m) => m.present) : undefined;
    series.push(lineOf(curve, present ? `${curve.stroke}, ${clicksText(present.clicks)}` : curve.stroke));
    marks.push(...onset(curve, force, measures));
  }
  let caption = force.families.length
    ? "Full ink: the clicks as set. Tint: the other clicks."
    : "No clicker acts on this damper: one curve for each stroke.";
  if (marks.length) caption += " Dots: a chamber draws air, so the damper no longer follows its curve.";
  if (ghost) caption += ` Thin grey: ${ghost.name}.`;
  return {
    title: "Damping force over shaft speed",
    caption: caption + trouble(force.outcome),
    x: { title: "shaft speed", measure: measures.speed, zero: true, log: true },
    y: { title: "force, compression up, rebound down", measure: measures.force, zero: true, magnitudes: true },
    series,
    marks,
    rules: speed === undefined ? [] : [{ x: speed, text: "", ink: "copper" }],
    dots: "draws air",
  };
}
