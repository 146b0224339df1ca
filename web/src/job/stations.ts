import type { Diagnostic, Draft, Finding } from "../api/model";

/** A place on the bench where one part of the job is done. */
export interface Station {
  readonly id: string;
  readonly name: string;
  /** For the strip of a narrow screen. */
  readonly short: string;
  /** What the hand does there. */
  readonly task: string;
}

/** In the order of the work. */
export const stations = [
  { id: "rider", name: "Rider and complaint", short: "Rider", task: "The rider, and what is wrong now." },
  { id: "hardware", name: "Hardware", short: "Hardware", task: "The parts of this leg or shock, as measured." },
  { id: "valving", name: "Valving", short: "Valving", task: "The shims on each side of each piston, and the clickers." },
  { id: "springs", name: "Springs and air", short: "Springs", task: "The springs that carry the machine, and the sag." },
  { id: "effect", name: "Effect", short: "Effect", task: "Force, pressures and clicks over the whole range." },
  { id: "fit", name: "Fit", short: "Fit", task: "Heights on the post, thread, spacers and torque." },
  { id: "build", name: "Build, fill and bleed", short: "Build", task: "Volumes, and the sheets to print for the work." },
  { id: "handover", name: "Hand over", short: "Hand over", task: "The settings for the rider, and what to turn when." },
] as const satisfies readonly Station[];

export type StationId = (typeof stations)[number]["id"];

/** The first rule that a path matches says where it is worked on. */
const rules: readonly (readonly [RegExp, StationId])[] = [
  [/^(rider|machine|conditions|title|scenario|notes|revision|date|shop|format|parts)\b/, "rider"],
  [/\.(compression|rebound)\.(stack|float|back_spring|seat_height|material)\b/, "valving"],
  [/\.bleed\b/, "valving"],
  [/_valve(\.(compression|rebound))?$/, "valving"],
  [/^stack\b/, "valving"],
  [/\.(post|nut|pieces|spacers)\b/, "fit"],
  [/\.(coil_spring|air_spring|trapped_air|top_out|bump_stop|linkage)\b/, "springs"],
  [/\.fill\b/, "build"],
  [/^bench\b|\.motion\b/, "effect"],
];

/** The station at which a key of the job file is worked on. */
export function stationOf(path: string): StationId {
  return rules.find(([rule]) => rule.test(path))?.[1] ?? "hardware";
}

/** Findings that look at the outcome rather than at one key go where the outcome is shown. */
export function stationOfFinding(finding: Finding): StationId {
  if (finding.place.path) return stationOf(finding.place.path);
  if (/^F1/.test(finding.code)) return "fit";
  if (/^F3/.test(finding.code)) return "valving";
  if (/^F4/.test(finding.code)) return "springs";
  if (/^F5/.test(finding.code)) return "build";
  return "effect";
}

/** What is open at one station. */
export interface StationState {
  readonly faults: number;
  readonly stops: number;
  readonly looks: number;
}

export function stationStates(
  findings: readonly Finding[],
  drafts: readonly Draft[],
  diagnostics: readonly Diagnostic[],
): Record<StationId, StationState> {
  const count = (id: StationId): StationState => {
    const here = findings.filter((one) => stationOfFinding(one) === id);
    const faulty = new Set([...drafts.map((one) => one.path), ...diagnostics.filter((one) => one.severity === "stop").map((one) => one.path)]);
    return {
      faults: [...faulty].filter((path) => stationOf(path) === id).length,
      stops: here.filter((one) => one.severity === "stop").length,
      looks: here.filter((one) => one.severity === "look").length,
    };
  };
  return Object.fromEntries(stations.map(({ id }) => [id, count(id)])) as Record<StationId, StationState>;
}
