/** What the stack picture reads of a result document and of the answer of `/stack`: same names, SI. */
export interface DiscDrawing {
  number: number;
  group: number;
  label: string;
  outer_radius: number;
  bore_radius: number;
  thickness: number;
  height: number;
  ring: boolean;
  carries: boolean;
}

export interface StackGeometry {
  discs: DiscDrawing[];
  groups: { count: number; first: number; label: string }[];
  height: number;
  clamp_radius: number;
  boss_radius: number;
  bore_radius: number;
  seat_radius: number;
  seat_height: number;
  pocket_inner_radius: number;
  pocket_outer_radius: number;
  pocket_arc: number;
  land_outer_radius: number;
  seat_supports: boolean;
  float_travel: number;
}

export interface StackDocument {
  name: string;
  geometry: StackGeometry;
  points: { pressure: number; highest_stress: number; lift_at_rim: number }[];
  worst_disc: number;
}

export interface DiscView {
  number: number;
  radius: number[];
  height: number[];
  thickness: number;
  stress: number[];
  highest_stress: number;
  fatigue_margin?: number | null;
  carries: boolean;
}

/** The stack at one load. */
export interface StackView {
  pressure: number;
  speed?: number | null;
  lift_at_seat: number;
  lift_at_rim: number;
  discs: DiscView[];
  contacts: { lower: number; upper: number; radius: number; force: number }[];
  bleed_flow?: number | null;
  stack_flow?: number | null;
  outcome?: { status: string; note: string };
}
