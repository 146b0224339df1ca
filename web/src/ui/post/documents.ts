/** What the post drawing reads of a result document: same names, SI. */
export interface LedgerLine {
  name: string;
  shape: string; // "washer", "disc", "piston", "spacer", "nut", "other"
  count: number;
  height: number;
  tolerance: number;
  measured: boolean;
  typed: string;
  from: number;
  to: number;
  outer_radius: number;
}

export interface ThreadResult {
  designation: string;
  pitch: number;
  post_length: number;
  thread_start: number;
  stack_height: number;
  stack_tolerance: number;
  nut_height: number;
  engaged_turns: number;
  nut_turns: number;
  least_turns: number;
  protrusion: number;
  unthreaded_gap: number;
}

export interface PostDocument {
  name: string;
  ledger: LedgerLine[];
  bore_radius: number;
  major_radius: number;
  thread?: ThreadResult | null;
  spacers: { name: string; thickness: number; in_hand: number; used: number; written: number }[];
  spacer_advice: string;
  fits: boolean;
  flags: { what: string; serious: boolean; sure: boolean }[];
}
