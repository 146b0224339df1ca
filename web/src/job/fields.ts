import type { SchemaKey, StationId } from "../api/model";

/** "unit[0].piston_valve.bleed[1].seat" to "unit[].piston_valve.bleed[].seat", as the schema names keys. */
export const pattern = (path: string): string => path.replace(/\[\d+\]/g, "[]");

/** "half_angle" to "Half angle". */
export function wordsOf(key: string): string {
  const words = key.replace(/_/g, " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** The last key of a path: "seat" of "unit[0].piston_valve.rebound.seat". */
export const lastKey = (path: string): string => path.slice(path.lastIndexOf(".") + 1);

/** The steps of a path: "unit[0].rod" is "unit" with the index 0, then "rod". */
export function stepsOf(path: string): { key: string; index: number | undefined }[] {
  return path.split(".").map((step) => {
    const [, key = step, index] = /^(.*?)(?:\[(\d+)\])?$/.exec(step) ?? [];
    return { key, index: index === undefined ? undefined : Number(index) };
  });
}

/** A path in words, for undo, for a screen reader, for a list of faults: "piston valve, rebound, seat". */
export function pathInWords(path: string): string {
  const steps = stepsOf(path);
  const words = steps.map(({ key, index }) => {
    const plain = key.replace(/_/g, " ");
    return index === undefined || key === "unit" ? plain : `${plain} ${index + 1}`;
  });
  return (steps[0]?.key === "unit" && steps.length > 1 ? words.slice(1) : words).join(", ");
}

/** The schema, to look up by path. */
export class Schema {
  private readonly byPath: ReadonlyMap<string, SchemaKey>;

  constructor(readonly keys: readonly SchemaKey[]) {
    this.byPath = new Map(keys.map((key) => [key.path, key]));
  }

  /** What the file may hold at this path; undefined when the schema has no such key. */
  at(path: string): SchemaKey | undefined {
    return this.byPath.get(pattern(path)) ?? this.byPath.get(pattern(path).replace(/\[\]$/, ""));
  }

  /** The station at which the key of this path is worked on; of one that the schema has not, that of the table around it. */
  stationOf(path: string): StationId {
    for (let at = path; at !== ""; at = at.slice(0, Math.max(0, at.lastIndexOf(".")))) {
      const key = this.at(at);
      if (key) return key.station;
    }
    return "hardware";
  }

  /** The keys directly in the table at this path, in the order of the schema. */
  keysIn(table: string): SchemaKey[] {
    const prefix = table === "" ? "" : `${pattern(table)}.`;
    return this.keys.filter((key) => key.path.startsWith(prefix) && !/[.[]/.test(key.path.slice(prefix.length).replace(/\[\]$/, "")));
  }
}

const containers: ReadonlySet<string> = new Set(["table", "tables", "stack", "pieces", "parts", "part list"]);

/** A key that one input can hold. */
export const isLeaf = (key: SchemaKey): boolean => !containers.has(key.value);

type Values = Readonly<Record<string, string>>;

/** Which tables and lists the file has: needed for each field of a form, so it is found once for each set of keys. */
interface Shape {
  readonly tables: ReadonlySet<string>;
  readonly lengths: ReadonlyMap<string, number>;
}
const shapes = new WeakMap<Values, Shape>();
let newest: { readonly keys: readonly string[]; readonly shape: Shape } | undefined;

/** The same object for values that differ in their words only. */
export function shapeOf(values: Values): Shape {
  const found = shapes.get(values);
  if (found) return found;
  const keys = Object.keys(values);
  const known = newest && newest.keys.length === keys.length && newest.keys.every((key, index) => key === keys[index]);
  const shape = known && newest ? newest.shape : shapeOfKeys(keys);
  newest = { keys, shape };
  shapes.set(values, shape);
  return shape;
}

function shapeOfKeys(keys: readonly string[]): Shape {
  const tables = new Set<string>();
  const lengths = new Map<string, number>();
  for (const path of keys) {
    tables.add(path);
    for (let at = 1; at < path.length; ++at) {
      if (path[at] !== "." && path[at] !== "[") continue;
      const above = path.slice(0, at);
      tables.add(above);
      if (path[at] === "[") lengths.set(above, Math.max(lengths.get(above) ?? 0, Number.parseInt(path.slice(at + 1), 10) + 1));
    }
  }
  return { tables, lengths };
}

/** How many elements the list at this path has in the file. */
export const listLength = (values: Values, list: string): number => shapeOf(values).lengths.get(list) ?? 0;

/** Anything written at or below this path. */
export const hasAny = (values: Values, path: string): boolean => shapeOf(values).tables.has(path);
