import { lengths } from "../../units/table";
import type { Size } from "./parts";

// What the program reads (src/units/stack_text.cc) is read here too, while it is typed and before an answer comes. Units come
// from the program's table; both readers are held to the cases of src/units/shim_cases.json.

/** A length as typed: "24" and "mm". */
export interface TypedLength {
  readonly text: string;
  readonly unit: string; // empty: none stands behind either length
}

/** "3 x 24 x 0.15 mm" taken apart. */
export interface ShimText {
  readonly count: number;
  readonly diameter: TypedLength;
  readonly thickness: TypedLength;
  readonly size: Size | null; // in SI; null without a unit
}

const MOST = 200; // of one kind in a row
const BLANK = "[ \\t\\u00a0\\u2000-\\u200a\\u202f]";
const TIMES = `${BLANK}*[xX×*]${BLANK}*`;
const NUMBER = `\\+?(?:(?:\\d{1,3}${BLANK}+)?\\d{1,3}/\\d{1,3}|(?:\\d+(?:\\.\\d+)?|\\.\\d+)(?:[eE][-+]?\\d+)?)`;
const UNIT = Object.keys(lengths).join("|");
const LENGTH = `(${NUMBER})${BLANK}*(${UNIT})?`;
const SHIMS = new RegExp(`^${BLANK}*(?:(${NUMBER})${TIMES})?${LENGTH}${TIMES}${LENGTH}${BLANK}*$`);
const COUNTED = new RegExp(`^${BLANK}*(\\d{1,4})${TIMES}`);

/** "1 1/8" as a number. */
function valueOf(text: string): number {
  const fraction = /^\+?(?:(\d+)\D+)?(\d+)\/(\d+)$/.exec(text);
  if (!fraction) return Number(text);
  return Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]);
}

function siOf({ text, unit }: TypedLength): number {
  const { numerator, denominator } = lengths[unit as keyof typeof lengths];
  return (valueOf(text) * numerator) / denominator;
}

/** Count, diameter and thickness of a text; null when it is no such text: a part's name, or nonsense. */
export function readShims(text: string): ShimText | null {
  const found = SHIMS.exec(text);
  if (!found) return null;
  const unit = found[5] ?? "";
  const diameter = { text: found[2]!, unit: found[3] ?? unit };
  const thickness = { text: found[4]!, unit };
  const count = valueOf(found[1] ?? "1");
  if (unit === "") return { count, diameter: { ...diameter, unit }, thickness, size: null };
  const size = { outer_diameter: siOf(diameter), thickness: siOf(thickness) };
  const isShim = size.thickness > 0 && size.thickness < size.outer_diameter && Number.isFinite(size.outer_diameter);
  return isShim && Number.isInteger(count) && count >= 1 && count <= MOST ? { count, diameter, thickness, size } : null;
}

/** "3 x " and what stands behind it. In "20x0.15", which may be a part's name, nothing is counted. */
export function splitCount(text: string): { count: number; head: string; rest: string } {
  const isName = /^[^x×*]*[x×*][^x×*]*$/i.test(text) && readShims(text) !== null;
  const found = isName ? null : COUNTED.exec(text);
  const head = found?.[0] ?? "";
  return { count: Number(found?.[1] ?? 1), head, rest: text.slice(head.length).trim() };
}

/** The name in "2 x shim 20x0.15" or "20x0.15"; null for a text of lengths. */
export function partName(text: string): string | null {
  if (readShims(text)?.size) return null; // "21x0.10" may be a name, "21 x 0.10 mm" is not
  return splitCount(text).rest.replace(/^shim\s+/, "") || null;
}

/** "mm" or "in": the unit that new lengths are written in beside one of `unit`. */
export function unitBeside(unit: string): "mm" | "in" {
  return ["in", "inch", "thou", "ft"].includes(unit) ? "in" : "mm";
}

/** A length as one would type it: no more digits than it has. */
function lengthText(si: number, unit: "mm" | "in"): string {
  const { numerator, denominator } = lengths[unit];
  return String(Number(((si * denominator) / numerator).toFixed(unit === "in" ? 5 : 4)));
}

/** "21 x 0.10 mm" of a part, or what its lengths say when its label is worded otherwise. */
export function lengthsOf(part: { label: string; outer_diameter: number; thickness: number }, unit: "mm" | "in"): Pick<ShimText, "diameter" | "thickness"> {
  const label = readShims(part.label);
  if (label?.size) return label;
  const typed = (si: number): TypedLength => ({ text: lengthText(si, unit), unit });
  return { diameter: typed(part.outer_diameter), thickness: typed(part.thickness) };
}

/** "3 x 24 x 0.15 mm". */
export function shimText(count: number, { diameter, thickness }: Pick<ShimText, "diameter" | "thickness">): string {
  const own = diameter.unit === thickness.unit ? "" : ` ${diameter.unit}`;
  return `${count} x ${diameter.text}${own} x ${thickness.text} ${thickness.unit}`;
}
