/**
 * What charts read of a result document (`shimwright check --json`): members by the same names, in SI. Charts know no
 * api; the api's own types fit these by their shape.
 */
export type StrokeWord = "compression" | "rebound";

export interface OutcomeLike {
  status: string;
  note: string;
}

export interface ForcePointLike {
  speed: number;
  force: number;
  compression_pressure: number;
  rod_pressure: number;
  reservoir_pressure: number;
  cavitated: boolean;
}

export interface ForceCurveLike {
  stroke: StrokeWord | string;
  points: ForcePointLike[];
}

export interface ClickFamilyLike {
  adjuster: string;
  stroke: StrokeWord | string;
  speed: number[];
  members: { clicks: number; present: boolean; force: number[]; cavitated: boolean[] }[];
}

export interface ForceLike {
  curves: ForceCurveLike[];
  families: ClickFamilyLike[];
  cavitation: { stroke: StrokeWord | string; chamber: string; release_pressure: number; speed_lost?: number | null }[];
  outcome?: OutcomeLike;
}

export interface SpringLike {
  names: string[];
  travel: number;
  points: { travel: number; force: number; rate: number; shares: number[] }[];
  sag: { name: string; travel: number; topped_out: boolean; bottomed: boolean }[];
  air_end_travel?: number | null;
  coil_bind_travel?: number | null;
  outcome?: OutcomeLike;
}

export interface LiftLike {
  theory: string;
  line: { pressure: number[]; lift_at_seat: number[]; lift_at_rim: number[] };
  points: { pressure: number; lift_at_seat: number }[];
  path: { pressure: number; lift_at_seat: number; what: string }[];
  outcome?: OutcomeLike;
}

/** One turn of the bench: the points of a closed loop in the order of time, in SI. */
export interface Loop {
  name: string;
  travel: number[];
  speed: number[];
  force: number[];
  measured?: boolean;
}

/** Something that happened in a motion. */
export interface EventLike {
  time: number;
  travel: number;
  force: number;
  what: string;
}

/** Another build behind this one. */
export interface Ghost<T> {
  name: string;
  of: T;
}

/** What went wrong in the computing, in words; nothing when all went well. */
export function trouble(outcome?: OutcomeLike): string {
  if (!outcome || outcome.status === "converged") return "";
  const note = outcome.note.trim();
  if (!note) return ` The solver ended with "${outcome.status}": take these lines with care.`;
  return ` ${note[0]!.toUpperCase()}${note.slice(1)}${/[.!?]$/.test(note) ? "" : "."}`;
}
