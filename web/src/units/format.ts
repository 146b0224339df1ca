import type { Kind, Reference, System } from "./kind";
import { references } from "./table";
import { decimalsOf, inUnit, outOfUnit, unitAt, usualUnit } from "./trade";

const thinSpace = "\u2009";
const minus = "\u2212";

export interface FormatOptions {
  /** Of a pressure: shown behind the unit. */
  readonly reference?: Reference;
  /** A change: "+12 N". */
  readonly sign?: boolean;
  /** Fixed digits behind the point, instead of the kind's own rule. */
  readonly decimals?: number;
}

// What lies exactly between two goes to the even one, as in print; toFixed() and toExponential() would round it up.

/** As toFixed(). */
function fixed(magnitude: number, decimals: number): string {
  const text = magnitude.toFixed(decimals);
  const between = (magnitude * 10 ** decimals) % 1 === 0.5 && /50{29}$/.test(magnitude.toFixed(decimals + 30));
  return between && /[13579]$/.test(text) ? (Number(text) - 10 ** -decimals).toFixed(decimals) : text;
}

/** As toExponential(2). */
function scientificOf(magnitude: number): string {
  const text = magnitude.toExponential(2);
  const between = /^\d\.\d\d5e/.test(magnitude.toExponential()) && /^\d\.\d\d50{29}e/.test(magnitude.toExponential(32));
  if (!between || !/^\d\.\d[13579]/.test(text)) return text;
  return (Number(text.slice(0, 4)) - 0.01).toFixed(2) + text.slice(4);
}

/** Digits of a value without its sign, three significant figures. */
function threeFigures(magnitude: number): string {
  if (magnitude === 0) return "0";
  const scientific = scientificOf(magnitude); // rounds first, so that 9.996 has its place as 10.0
  const rounded = Number(scientific);
  const exponent = Number(scientific.slice(scientific.indexOf("e") + 1));
  // beyond these, zeros would have to be counted by eye
  if (rounded >= 1e-4 && rounded < 1e7) return rounded.toFixed(Math.max(0, 2 - exponent));
  return `${scientific.slice(0, 4)}e${exponent}`;
}

function digitsOf(magnitude: number, kind: Kind, options: FormatOptions): string {
  if (options.decimals !== undefined) return fixed(magnitude, options.decimals);
  const decimals = decimalsOf(kind);
  if (decimals === undefined) return threeFigures(magnitude);
  // less than ten steps of the last decimal would be too coarse a figure
  if (kind === "fraction" && magnitude !== 0 && magnitude < 10 ** (1 - decimals)) return threeFigures(magnitude);
  return String(Number(fixed(magnitude, decimals)));
}

function signed(value: number, kind: Kind, options: FormatOptions): string {
  if (!Number.isFinite(value)) return "–";
  const digits = digitsOf(Math.abs(value), kind, options);
  if (!/[1-9]/.test(digits)) return digits;
  if (value < 0) return minus + digits;
  return options.sign ? `+${digits}` : digits;
}

/** A number with its unit: three significant figures, thin space, unit; minus is U+2212. */
export function format(value: number, kind: Kind, system: System, options: FormatOptions = {}): string {
  const unit = unitAt(value, kind, system);
  const number = signed(inUnit(value, unit), kind, options);
  if (unit.name === "") return number;
  const gap = kind === "angle" ? "" : thinSpace;
  return number + gap + unit.name + references[options.reference ?? "none"];
}

/** The number of format() alone, always in unitName()'s unit: for a table or an axis whose heading holds it. */
export function numberText(value: number, kind: Kind, system: System, options: FormatOptions = {}): string {
  return signed(inUnit(value, usualUnit(kind, system)), kind, options);
}

/** The trade's unit for a kind: "mm", "in·lbf", "bar(g)"; "" for a plain number. */
export function unitName(kind: Kind, system: System, reference: Reference = "none"): string {
  return usualUnit(kind, system).name + references[reference];
}

/** Invisible text after each number of a column, so that the decimal points line up: ".00", "0" or "". */
export function fractionPads(column: readonly string[]): string[] {
  const fractions = column.map((text) => /\.\d+$/.exec(text)?.[0] ?? "");
  const longest = Math.max(0, ...fractions.map((one) => one.length));
  return fractions.map((one) => (one === "" ? "." : "").padEnd(longest - one.length, "0").slice(0, longest - one.length));
}

/** From SI to the unit that unitName() names, and back. */
export const toUnit = (value: number, kind: Kind, system: System): number => inUnit(value, usualUnit(kind, system));
export const fromUnit = (value: number, kind: Kind, system: System): number =>
  outOfUnit(value, usualUnit(kind, system));

/** A thickness as the trade writes it: "0.15 mm", "0.0059 in"; a third decimal of a millimetre when it is there. */
export function formatThickness(value: number, system: System): string {
  const number = toUnit(value, "length", system);
  const digits = system === "imperial" ? fixed(number, 4) : fixed(number, 3).replace(/0$/, "");
  return digits + thinSpace + unitName("length", system);
}

/** A whole number with what it counts: "12 clicks". */
export const formatCount = (value: number, counted: string): string =>
  `${signed(value, "number", { decimals: Number.isInteger(value) ? 0 : 1 })}${counted ? thinSpace + counted : ""}`;

/** A value of the result document, as its own fields say. */
export interface DocumentValue {
  readonly si: number;
  readonly kind: Kind;
  readonly reference: Reference;
  readonly counted: string;
}
export function formatValue(value: DocumentValue, system: System, options: FormatOptions = {}): string {
  if (value.kind === "number" && value.counted !== "") return formatCount(value.si, value.counted);
  return format(value.si, value.kind, system, { reference: value.reference, ...options });
}
