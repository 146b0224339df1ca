import type { BenchRunLike } from "../../charts/loop_plot";
import type { TraceLike } from "../../charts/time_plot";

/** What the bench shows of a bench document: same names, SI. */
export interface BenchCycle {
  number: number;
  energy_in: number;
  compression_force: number;
  rebound_force: number;
  damper_compression_force: number;
  damper_rebound_force: number;
  phase_lag: number;
  lowest_pressure: number;
  lowest_chamber: string;
  released_air: number;
}

export interface BenchRun extends BenchRunLike {
  finished: boolean;
  top_speed: number;
  cycles: BenchCycle[];
  outcome: { status: string; note: string };
}

/** How far a run on the bench is. */
export interface Progress {
  done: number; // 0 to 1
  next: string; // what it works on
}

export interface ReleaseCase {
  name: string;
  fully_out: boolean;
  rest_travel: number;
  half_time: number;
}

export type ReleaseTrace = TraceLike;

/** What of the unit's springs is on the bench. */
export interface BenchSprings {
  in: boolean;
  words: string;
}

/** One unit of a bench document. */
export interface BenchUnit {
  name: string;
  runs: BenchRun[];
  assumptions: string[];
  springs: BenchSprings;
  release_traces: ReleaseTrace[];
  release?: { words: string; cases: ReleaseCase[] } | null;
}

export interface BenchDocument {
  stopped: boolean;
  units: BenchUnit[];
}
