import type { Measure } from "../units/measures";

/** A colour by what it is for; the page has it as a custom property of the same name. */
export type Ink = "ink" | "steel" | "line" | "copper" | "compression" | "rebound" | "fine" | "look" | "stop";
export type Dash = "solid" | "long" | "short" | "chain";
export type Weight = "heavy" | "plain" | "thin";

/** One line of a plot, in SI. It is named at its end, not in a legend. */
export interface Series {
  key: string; // stays the same from one state to the next
  name: string; // empty: drawn without a name
  x: readonly number[]; // ascending unless `closed`
  y: readonly number[]; // (as x)
  dotted?: readonly boolean[]; // (as x) the piece up to this point left the model's range
  ink: Ink;
  dash: Dash;
  weight: Weight;
  opacity?: number;
  behind?: boolean; // of a fan: neither read under the cursor nor stepped through
  closed?: boolean; // a loop: not a function of x
  column?: string; // heading in the table, where the name is not enough
  /** Where it is read: drawn down from zero, so that its own value is minus what is drawn. */
  down?: boolean;
}

/** A tint between two lines, with its own name. */
export interface Band {
  key: string;
  name: string;
  x: readonly number[];
  low: readonly number[];
  high: readonly number[];
  ink: Ink;
}

/** Words at one place: an onset, a limit, a target. */
export interface Mark {
  x: number;
  y: number;
  text: string;
  ink: Ink;
}

/** A line right across at one x: where the slider stands. */
export interface Rule {
  x: number;
  text: string;
  ink: Ink;
}

export interface AxisSpec {
  title: string; // "shaft speed"
  measure: Measure;
  zero?: boolean; // zero belongs to the picture whatever the data are
  magnitudes?: boolean; // ticks without sign: both strokes are positive, up and down from one zero
  log?: boolean; // a logarithmic axis may be chosen
}

/** A whole plot: what any chart is before it has a size. */
export interface PlotSpec {
  title: string;
  caption: string; // one sentence: what to see
  x: AxisSpec;
  y: AxisSpec;
  series: Series[];
  bands?: Band[];
  marks?: Mark[];
  rules?: Rule[];
  dots?: string; // what a dotted piece means, "draws air"
}
