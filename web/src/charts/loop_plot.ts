import type { EventLike, Loop } from "./documents";
import type { Measures } from "../units/measures";
import type { Dash, PlotSpec, Series } from "./plot_spec";

const DASHES: Dash[] = ["solid", "long", "short", "chain"];

/** What a chart reads of a run of a bench document. */
export interface BenchRunLike {
  name: string;
  kind: string;
  loop: { time: number[]; travel: number[]; speed: number[]; force: number[]; springs: number[]; lock: number[] };
  events: EventLike[];
  measured?: { travel: number[]; force: number[] } | null;
}

/** Names without what they all begin with: "sine 18 mm" and ["0.25 m/s", "0.5 m/s"]. */
export function parted(names: readonly string[]): { common: string; own: string[] } {
  const pieces = names.map((name) => name.split(", "));
  let n = 0;
  const first = pieces[0] ?? [];
  while (names.length > 1 && n < first.length - 1 && pieces.every((p) => p.length > n + 1 && p[n] === first[n])) ++n;
  return { common: first.slice(0, n).join(", "), own: pieces.map((p) => p.slice(n).join(", ")) };
}

/** Whose force a loop shows: damper and springs together, or the damper's with the springs taken off. */
export type ForceOf = "all" | "damper";

/** The force of a run's points. */
export function forceOf(run: BenchRunLike, of: ForceOf): number[] {
  return of === "all" ? run.loop.force : run.loop.force.map((f, i) => f - run.loop.springs[i]!);
}

/** The loops of a bench document: its turning runs, and beside a recorded stroke what was measured. */
export function loopsOf(runs: readonly BenchRunLike[], of: ForceOf = "all"): Loop[] {
  return runs.flatMap((run) => {
    const turning = run.kind === "sine" || run.kind === "triangle";
    const own: Loop[] = turning || run.measured ? [{ name: run.name, travel: run.loop.travel, speed: run.loop.speed, force: forceOf(run, of) }] : [];
    // a record says where the rod was and how hard it pushed; nobody measured its speed
    const measured: Loop[] = run.measured && of === "all"
      ? [{ name: `${run.name}, measured`, travel: run.measured.travel, speed: [], force: run.measured.force, measured: true }]
      : [];
    return [...own, ...measured];
  });
}

/** What the title says of the force; nothing where no springs are in. */
export type Whose = "" | "damper and springs" | "damper alone";

/** Bench loops: force over travel or over speed, one closed line for each run. */
export function loopPlot(loops: readonly Loop[], against: "travel" | "speed", measures: Measures, whose: Whose = ""): PlotSpec {
  const shown = loops.filter((loop) => loop[against].length === loop.force.length);
  const { common, own } = parted(shown.map((loop) => loop.name));
  const series = shown.map((loop, k): Series => {
      const last = k === shown.length - 1;
      return {
        key: `loop ${k}`,
        name: own[k]!,
        column: loop.name,
        x: loop[against],
        y: loop.force,
        closed: true,
        ink: loop.measured ? "steel" : "ink",
        dash: loop.measured ? "short" : DASHES[k % DASHES.length]!,
        weight: last && !loop.measured ? "heavy" : "plain",
      };
    });
  const measured = loops.some((l) => l.measured) ? " Short dashes: measured." : "";
  const named = whose && `, ${whose}`;
  return against === "travel"
    ? {
        title: `Bench loops, force over travel${named}${common && `: ${common}`}`,
        caption: `The area inside is the work of one turn; a flat top or a hook is air or slack.${measured}`,
        x: { title: "travel", measure: measures.length },
        y: { title: "force", measure: measures.force, zero: true },
        series,
      }
    : {
        title: `Bench loops, force over speed${named}${common && `: ${common}`}`,
        caption: `Opening and closing lie apart where gas, friction or the oil's give act.${measured}`,
        x: { title: "shaft speed", measure: measures.speed },
        y: { title: "force", measure: measures.force, zero: true },
        series,
      };
}
