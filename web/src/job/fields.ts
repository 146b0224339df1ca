import type { SchemaKey } from "../api/model";

/** "unit[0].piston_valve.bleed[1].seat" to "unit[].piston_valve.bleed[].seat", as the schema names keys. */
export const pattern = (path: string): string => path.replace(/\[\d+\]/g, "[]");

/** "half_angle" to "Half angle". */
export function wordsOf(key: string): string {
  const words = key.replace(/_/g, " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** The last key of a path: "seat" of "unit[0].piston_valve.rebound.seat". */
export const lastKey = (path: string): string => path.slice(path.lastIndexOf(".") + 1);

/** A path in words, for undo, for a screen reader, for a list of faults: "piston valve, rebound, seat". */
export function pathInWords(path: string): string {
  const parts = path.split(".").map((part) => {
    const [, key = part, index] = /^(.*?)(?:\[(\d+)\])?$/.exec(part) ?? [];
    const words = key.replace(/_/g, " ");
    return index === undefined || key === "unit" ? words : `${words} ${Number(index) + 1}`;
  });
  return (parts[0] === "unit" && parts.length > 1 ? parts.slice(1) : parts).join(", ");
}

/** The schema, ready to be asked by path. */
export class Schema {
  private readonly byPath: ReadonlyMap<string, SchemaKey>;

  constructor(readonly keys: readonly SchemaKey[]) {
    this.byPath = new Map(keys.map((key) => [key.path, key]));
  }

  /** What the file may hold at this path; undefined when the schema has no such key. */
  at(path: string): SchemaKey | undefined {
    return this.byPath.get(pattern(path)) ?? this.byPath.get(pattern(path).replace(/\[\]$/, ""));
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

/** How many elements the list at this path has in the file. */
export function listLength(values: Readonly<Record<string, string>>, list: string): number {
  let length = 0;
  for (const path of Object.keys(values)) {
    if (!path.startsWith(`${list}[`)) continue;
    length = Math.max(length, Number.parseInt(path.slice(list.length + 1), 10) + 1);
  }
  return length;
}

/** Anything written at or below this path. */
export const hasAny = (values: Readonly<Record<string, string>>, path: string): boolean =>
  Object.keys(values).some((one) => one === path || one.startsWith(`${path}.`) || one.startsWith(`${path}[`));
