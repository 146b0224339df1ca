import { describe, expect, it } from "vitest";
import cases from "../../../src/units/format_cases.json";
import { format, formatCount, formatThickness, type FormatOptions, fractionPads, fromUnit, numberText, toUnit, unitName } from "./format";
import type { Kind, Reference } from "./kind";

// page and print must not differ: src/units/page_table_test.cc reads the same cases
const withBlanks = (text: string): string => text.replaceAll("\u2009", " ");
const options = (one: { reference?: string; sign?: boolean; decimals?: number }): FormatOptions => ({
  ...one,
  reference: one.reference as Reference,
});

describe.each(["metric", "imperial"] as const)("a number on the page, %s", (system) => {
  it.each(cases.values)("$si as a $kind", (one) => {
    expect(withBlanks(format(one.si, one.kind as Kind, system, options(one)))).toBe(one[system]);
  });
  it.each(cases.columns)("$si in a column of $kind", (one) => {
    expect(numberText(one.si, one.kind as Kind, system, options(one))).toBe(one[system]);
  });
  it.each(cases.thicknesses)("a thickness of $si", (one) => {
    expect(withBlanks(formatThickness(one.si, system))).toBe(one[system]);
  });
  it.each(cases.unit_names)("the unit of a $kind", (one) => {
    expect(unitName(one.kind as Kind, system, one.reference as Reference)).toBe(one[system]);
  });
});

describe("a number on the page", () => {
  it("has a thin space and the minus of print", () => {
    expect(format(-120, "force", "metric")).toBe("\u2212120\u2009N");
  });

  it("counts whole clicks without decimals", () => {
    expect(formatCount(12, "clicks")).toBe("12\u2009clicks");
    expect(formatCount(-2, "clicks")).toBe("\u22122\u2009clicks");
  });

  it("lets decimal points meet down a column", () => {
    expect(fractionPads(["27.8", "110", "4.25"])).toEqual(["0", ".00", ""]);
    expect(fractionPads(["110", "1220"])).toEqual(["", ""]);
  });

  it("comes back from its unit", () => {
    for (const { si, kind } of cases.values) {
      const back = fromUnit(toUnit(si, kind as Kind, "imperial"), kind as Kind, "imperial");
      expect(Math.abs(back - si)).toBeLessThanOrEqual(1e-12 * Math.abs(si)); // two roundings of a double
    }
  });
});
