import type { Kind, System } from "./kind";
import { table } from "./table";

/** One unit of the trade: its name, and what it is worth. SI value = (number + shift) * numerator / denominator. */
export interface TradeUnit {
  readonly name: string;
  readonly numerator: number;
  readonly denominator: number;
  readonly shift?: number; // of a scale with its own zero
}

interface Rule {
  readonly metric: TradeUnit;
  readonly imperial: TradeUnit;
  /** A large value takes this unit instead, from `largeFrom` on [SI]. */
  readonly metricLarge?: TradeUnit;
  readonly imperialLarge?: TradeUnit;
  readonly largeFrom?: number;
  /** At most so many, zeros at the end left out; without it three significant figures. */
  readonly decimals?: number;
}

const rules: Record<Kind, Rule> = table;

/** The unit that a column of this kind is headed with. */
export const usualUnit = (kind: Kind, system: System): TradeUnit => rules[kind][system];

/** The unit that this very value takes. */
export function unitAt(value: number, kind: Kind, system: System): TradeUnit {
  const rule = rules[kind];
  const large = system === "metric" ? rule.metricLarge : rule.imperialLarge;
  return large && Math.abs(value) >= (rule.largeFrom ?? Infinity) ? large : rule[system];
}

export const decimalsOf = (kind: Kind): number | undefined => rules[kind].decimals;

export const inUnit = (value: number, { numerator, denominator, shift = 0 }: TradeUnit): number =>
  (value * denominator) / numerator - shift;
export const outOfUnit = (value: number, { numerator, denominator, shift = 0 }: TradeUnit): number =>
  ((value + shift) * numerator) / denominator;
