import type { BenchRunLike } from "../../charts/loop_plot";

/** What the bench shows of a bench document: same names, SI. */
export interface BenchCycle {
  number: number;
  energy_in: number;
  compression_force: number;
  rebound_force: number;
  phase_lag: number;
  lowest_pressure: number;
  lowest_chamber: string;
  released_air: number;
}

export interface BenchRun extends BenchRunLike {
  finished: boolean;
  top_speed: number;
  cycles: BenchCycle[];
  events: { time: number; travel: number; what: string }[];
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

/** One unit of a bench document. */
export interface BenchUnit {
  name: string;
  runs: BenchRun[];
  assumptions: string[];
  release?: { words: string; cases: ReleaseCase[] } | null;
}

export interface BenchDocument {
  stopped: boolean;
  units: BenchUnit[];
}
