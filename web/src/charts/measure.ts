import { format, formatThickness, fromUnit, type Kind, numberText, type Reference, type System, toUnit, unitName } from "../units";

/** How one kind of quantity is shown; every number of a drawing goes through one. */
export interface Measure {
  unit: string; // "N"
  value(si: number): number; // in display units; linear
  si(value: number): number; // and back
  text(si: number): string; // "412 N"
  number(si: number): string; // "412", the same without its unit
  fixed(si: number, decimals: number): string; // at a tick, where neighbours set the digits
}

export type MeasureKind =
  | "speed"
  | "force"
  | "pressure"
  | "pressure_difference"
  | "length"
  | "thickness"
  | "stress"
  | "flow";

export type Measures = Record<MeasureKind, Measure>;

function measureOf(kind: Kind, system: System, reference: Reference = "none"): Measure {
  return {
    unit: unitName(kind, system, reference),
    value: (si) => toUnit(si, kind, system),
    si: (value) => fromUnit(value, kind, system),
    text: (si) => format(si, kind, system, { reference }),
    number: (si) => numberText(si, kind, system),
    fixed: (si, decimals) => numberText(si, kind, system, { decimals }),
  };
}

/** All that drawings show, in one system of units. */
export function measuresOf(system: System): Measures {
  const length = measureOf("length", system);
  return {
    speed: measureOf("speed", system),
    force: measureOf("force", system),
    pressure: measureOf("pressure", system, "absolute"),
    pressure_difference: measureOf("pressure difference", system),
    length,
    // as the trade writes it: "0.15 mm"
    thickness: {
      ...length,
      text: (si) => formatThickness(si, system),
      number: (si) => formatThickness(si, system).split("\u2009")[0] ?? "",
    },
    stress: measureOf("stress", system),
    flow: measureOf("volume rate", system),
  };
}
