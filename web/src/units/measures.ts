import { format, formatThickness, fromUnit, numberText, toUnit, unitName } from "./format";
import type { Kind, Reference, System } from "./kind";

/** How charts and drawings show one kind of quantity: they are handed these and format nothing themselves. */
export interface Measure {
  readonly unit: string; // "N"
  value(si: number): number; // in that unit
  si(value: number): number; // and back
  text(si: number): string; // "412 N"
  number(si: number): string; // "412"
  fixed(si: number, decimals: number): string; // at a tick of an axis, whose step sets the digits
}

function measure(kind: Kind, system: System, reference: Reference = "none"): Measure {
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
export function measures(system: System) {
  const thickness: Measure = {
    ...measure("length", system),
    text: (si) => formatThickness(si, system),
    number: (si) => formatThickness(si, system).split("\u2009")[0] ?? "",
  };
  return {
    speed: measure("speed", system),
    force: measure("force", system),
    pressure: measure("pressure", system, "absolute"),
    pressure_difference: measure("pressure difference", system),
    length: measure("length", system),
    thickness,
    stress: measure("stress", system),
    flow: measure("volume rate", system),
    time: measure("time", system),
    /** Of an axis of the document. */
    of: (axis: { kind: Kind; reference: Reference; thickness: boolean }): Measure => (axis.thickness ? thickness : measure(axis.kind, system, axis.reference)),
  };
}

export type Measures = ReturnType<typeof measures>;
