import type { Kind, System } from "./kind";

/** One unit of the trade: its name in print, and what one of it is worth in SI (shift: of a scale with an offset). */
export interface TradeUnit {
  readonly name: string;
  readonly worth: number;
  readonly shift?: number;
}

interface Rule {
  readonly metric: TradeUnit;
  readonly imperial: TradeUnit;
  /** A large value takes this unit instead, from `largeFrom` on [SI]. */
  readonly metricLarge?: TradeUnit;
  readonly imperialLarge?: TradeUnit;
  readonly largeFrom?: number;
  /** At most so many decimals, zeros at the end left out; without it three significant figures. */
  readonly decimals?: number;
}

// exact by definition: inch, pound, standard gravity, US fluid ounce
const inch = 0.0254;
const foot = 12 * inch;
const pound = 0.45359237;
const poundForce = pound * 9.80665;
const psi = poundForce / inch ** 2;
const fluidOunce = (231 * inch ** 3) / 128;

const unit = (name: string, worth: number, shift = 0): TradeUnit => ({ name, worth, shift });
const both = (one: TradeUnit): Rule => ({ metric: one, imperial: one });

/** The same table as src/units/format.cc: the page prints as the packet does. */
const rules: Record<Kind, Rule> = {
  length: { metric: unit("mm", 1e-3), imperial: unit("in", inch), metricLarge: unit("m", 1), imperialLarge: unit("ft", foot), largeFrom: 10 },
  area: { metric: unit("mm²", 1e-6), imperial: unit("in²", inch ** 2) },
  volume: { metric: unit("mL", 1e-6), imperial: unit("fl oz", fluidOunce), metricLarge: unit("L", 1e-3), largeFrom: 10e-3 },
  mass: { metric: unit("kg", 1), imperial: unit("lb", pound) },
  force: { metric: unit("N", 1), imperial: unit("lbf", poundForce) },
  torque: { metric: unit("N·m", 1), imperial: unit("in·lbf", inch * poundForce), imperialLarge: unit("ft·lbf", foot * poundForce), largeFrom: 20 },
  pressure: { metric: unit("bar", 1e5), imperial: unit("psi", psi) },
  "pressure difference": { metric: unit("bar", 1e5), imperial: unit("psi", psi) },
  stress: { metric: unit("MPa", 1e6), imperial: unit("ksi", 1e3 * psi), metricLarge: unit("GPa", 1e9), largeFrom: 10e9 },
  temperature: { metric: unit("°C", 1, 273.15), imperial: unit("°F", 5 / 9, 459.67), decimals: 1 },
  "temperature difference": { metric: unit("K", 1), imperial: unit("Δ°F", 5 / 9), decimals: 1 },
  speed: { metric: unit("m/s", 1), imperial: unit("in/s", inch) },
  acceleration: { metric: unit("m/s²", 1), imperial: unit("ft/s²", foot) },
  "spring rate": { metric: unit("N/mm", 1e3), imperial: unit("lbf/in", poundForce / inch) },
  damping: { metric: unit("N·s/m", 1), imperial: unit("lbf·s/in", poundForce / inch) },
  "kinematic viscosity": both(unit("mm²/s", 1e-6)),
  "dynamic viscosity": both(unit("mPa·s", 1e-3)),
  density: { metric: unit("kg/m³", 1), imperial: unit("lb/ft³", pound / foot ** 3) },
  "volume rate": { metric: unit("L/min", 1e-3 / 60), imperial: unit("in³/s", inch ** 3) },
  "thermal expansion": both(unit("1/K", 1)),
  angle: { ...both(unit("°", Math.PI / 180)), decimals: 1 },
  frequency: both(unit("Hz", 1)),
  time: { ...both(unit("s", 1)), metricLarge: unit("min", 60), imperialLarge: unit("min", 60), largeFrom: 120 },
  power: { ...both(unit("W", 1)), metricLarge: unit("kW", 1e3), imperialLarge: unit("kW", 1e3), largeFrom: 10e3 },
  energy: { metric: unit("J", 1), imperial: unit("ft·lbf", foot * poundForce) },
  fraction: { ...both(unit("%", 0.01)), decimals: 1 },
  number: both(unit("", 1)),
};

/** The unit that a column of this kind is headed with. */
export const usualUnit = (kind: Kind, system: System): TradeUnit => rules[kind][system];

/** The unit that this very value takes. */
export function unitAt(value: number, kind: Kind, system: System): TradeUnit {
  const rule = rules[kind];
  const large = system === "metric" ? rule.metricLarge : rule.imperialLarge;
  return large && Math.abs(value) >= (rule.largeFrom ?? Infinity) ? large : rule[system];
}

export const decimalsOf = (kind: Kind): number | undefined => rules[kind].decimals;

export const inUnit = (value: number, { worth, shift = 0 }: TradeUnit): number => value / worth - shift;
export const outOfUnit = (value: number, { worth, shift = 0 }: TradeUnit): number => (value + shift) * worth;
