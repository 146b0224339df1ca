import type { Diagnostic, Draft, Finding, StationId } from "../api/model";
import type { Schema } from "./fields";

/** A place on the bench where one part of the job is done. */
export interface Station {
  readonly id: StationId;
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

/** What is open at one station. */
export interface StationState {
  readonly faults: number;
  readonly stops: number;
  readonly looks: number;
}

export function stationStates(
  schema: Schema,
  findings: readonly Finding[],
  drafts: readonly Draft[],
  diagnostics: readonly Diagnostic[],
): Record<StationId, StationState> {
  const count = (id: StationId): StationState => {
    const here = findings.filter((one) => one.station === id);
    const faulty = new Set([...drafts.map((one) => one.path), ...diagnostics.filter((one) => one.severity === "stop").map((one) => one.path)]);
    return {
      faults: [...faulty].filter((path) => schema.stationOf(path) === id).length,
      stops: here.filter((one) => one.severity === "stop").length,
      looks: here.filter((one) => one.severity === "look").length,
    };
  };
  return Object.fromEntries(stations.map(({ id }) => [id, count(id)])) as Record<StationId, StationState>;
}
