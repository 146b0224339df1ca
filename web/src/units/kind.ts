/** What a quantity is, in the words of the result document. */
export type Kind =
  | "length"
  | "area"
  | "volume"
  | "mass"
  | "force"
  | "torque"
  | "pressure"
  | "pressure difference"
  | "stress"
  | "temperature"
  | "temperature difference"
  | "speed"
  | "acceleration"
  | "spring rate"
  | "damping"
  | "kinematic viscosity"
  | "dynamic viscosity"
  | "density"
  | "volume rate"
  | "thermal expansion"
  | "angle"
  | "frequency"
  | "time"
  | "power"
  | "energy"
  | "fraction"
  | "number";

declare const kindOf: unique symbol;

/** A number in the SI unit of its kind. A length cannot stand where a force belongs. */
export type Si<K extends Kind> = number & { readonly [kindOf]: K };

/** Names a plain number of the result document as what it is. The only door into Si. */
export const si = <K extends Kind>(_kind: K, value: number): Si<K> => value as Si<K>;

export type Reference = "none" | "gauge" | "absolute";
export type System = "metric" | "imperial";
