/** The one place of the page where a number becomes text. */
export { format, formatCount, formatThickness, formatValue, fractionPads, fromUnit, numberText, toUnit, unitName } from "./format";
export type { DocumentValue, FormatOptions } from "./format";
export { measures } from "./measures";
export type { Measure, Measures } from "./measures";
export { si } from "./kind";
export type { Kind, Reference, Si, System } from "./kind";
