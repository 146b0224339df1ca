import { describe, expect, it } from "vitest";
import { format, formatCount, formatThickness, fractionPads, fromUnit, numberText, toUnit, unitName } from "./format";
import type { Kind } from "./kind";

// the same cases as src/units/format_test.cc: page and print must not differ
const shown: [number, Kind, string, string][] = [
  [0.0124, "length", "12.4 mm", "0.488 in"],
  [850, "length", "850 m", "2790 ft"],
  [110e-6, "area", "110 mm²", "0.171 in²"],
  [380e-6, "volume", "380 mL", "12.8 fl oz"],
  [82, "mass", "82.0 kg", "181 lb"],
  [1234, "force", "1230 N", "277 lbf"],
  [4.5, "torque", "4.50 N·m", "39.8 in·lbf"],
  [45, "torque", "45.0 N·m", "33.2 ft·lbf"],
  [1e6, "pressure", "10.0 bar", "145 psi"],
  [500e6, "stress", "500 MPa", "72.5 ksi"],
  [206e9, "stress", "206 GPa", "29900 ksi"],
  [313.15, "temperature", "40 °C", "104 °F"],
  [295.65, "temperature", "22.5 °C", "72.5 °F"],
  [10, "temperature difference", "10 K", "18 Δ°F"],
  [0.5, "speed", "0.500 m/s", "19.7 in/s"],
  [4600, "spring rate", "4.60 N/mm", "26.3 lbf/in"],
  [15e-6, "kinematic viscosity", "15.0 mm²/s", "15.0 mm²/s"],
  [860, "density", "860 kg/m³", "53.7 lb/ft³"],
  [1.15e-5, "thermal expansion", "1.15e-5 1/K", "1.15e-5 1/K"],
  [0.35, "fraction", "35 %", "35 %"],
  [0.0012, "fraction", "0.120 %", "0.120 %"],
  [300, "time", "5.00 min", "5.00 min"],
  [0.7, "number", "0.700", "0.700"],
];
const plain = (text: string) => text.replace(/\u2009/g, " ");

describe("a number on the page", () => {
  it.each(shown)("%d as a %s is %s, or %s", (value, kind, metric, imperial) => {
    expect(plain(format(value, kind, "metric"))).toBe(metric);
    expect(plain(format(value, kind, "imperial"))).toBe(imperial);
  });

  it("has a thin space and the minus of print", () => {
    expect(format(-120, "force", "metric")).toBe("\u2212120\u2009N");
    expect(format(Math.PI / 6, "angle", "metric")).toBe("30°");
    expect(format(1e6, "pressure", "metric", { reference: "gauge" })).toBe("10.0\u2009bar(g)");
  });

  it("shows the sign of a change, and none of nothing", () => {
    expect(plain(format(12, "force", "metric", { sign: true }))).toBe("+12.0 N");
    expect(plain(format(0, "force", "metric", { sign: true }))).toBe("0 N");
    expect(plain(format(-1e-9, "length", "metric", { decimals: 2 }))).toBe("0.00 mm");
  });

  it.each([
    [9.996, "10.0"],
    [99.96, "100"],
    [999.6, "1000"],
    [9996, "10000"],
    [1234567, "1230000"],
    [12345678, "1.23e7"],
    [0.00009996, "0.000100"],
  ])("keeps three figures when %d rounds up", (value, text) => {
    expect(numberText(value, "number", "metric")).toBe(text);
  });

  it("keeps one unit down a column", () => {
    expect(numberText(45, "torque", "imperial")).toBe("398");
    expect(unitName("pressure", "imperial", "absolute")).toBe("psi(a)");
  });

  it("writes a thickness as the trade does", () => {
    expect(formatThickness(0.0002, "metric")).toBe("0.20\u2009mm");
    expect(formatThickness(0.000125, "metric")).toBe("0.125\u2009mm");
    expect(formatThickness(0.00015, "imperial")).toBe("0.0059\u2009in");
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
    for (const [value, kind] of shown) {
      const back = fromUnit(toUnit(value, kind, "imperial"), kind, "imperial");
      expect(back / value).toBeCloseTo(1, 12); // two roundings of a double
    }
  });
});
