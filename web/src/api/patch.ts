/** What turns one JSON document into the next: RFC 6902, the three operations that the server sends. */
export type PatchOperation =
  | { readonly op: "add" | "replace"; readonly path: string; readonly value?: unknown }
  | { readonly op: "remove"; readonly path: string };

/** The operations do not fit the document they were sent for. */
export class Misfit extends Error {}

type Branch = unknown[] | Record<string, unknown>;

/**
 * The document after the operations, in their order. The given one stays as it is, and what no operation touches is the
 * same object in both: the code that draws a part sees by its identity that nothing has changed.
 */
export function patched<T>(document: T, operations: readonly PatchOperation[]): T {
  let root: unknown = document;
  const own = new Set<Branch>(); // copied already: may be written to
  const copyOf = (branch: unknown, path: string): Branch => {
    if (typeof branch !== "object" || branch === null) throw new Misfit(`nothing lies below ${path}`);
    if (own.has(branch as Branch)) return branch as Branch;
    const copy: Branch = Array.isArray(branch) ? branch.slice() : { ...branch };
    own.add(copy);
    return copy;
  };
  for (const operation of operations) {
    const keys = keysOf(operation.path);
    const last = keys.pop();
    if (last === undefined) {
      root = valueOf(operation);
      continue;
    }
    let at = copyOf(root, operation.path);
    root = at;
    for (const key of keys) {
      const next = copyOf(child(at, key, operation.path), operation.path);
      put(at, key, next);
      at = next;
    }
    if (Array.isArray(at)) changeItem(at, last, operation);
    else changeMember(at, last, operation);
  }
  return root as T;
}

/** The keys of a JSON pointer, RFC 6901. */
function keysOf(pointer: string): string[] {
  if (pointer === "") return [];
  if (!pointer.startsWith("/")) throw new Misfit(`${pointer} is no pointer`);
  return pointer
    .slice(1)
    .split("/")
    .map((key) => (key.includes("~") ? key.replaceAll("~1", "/").replaceAll("~0", "~") : key));
}

/** The place of an item; `end` is the one past the last. */
function indexOf(key: string, end: number, path: string): number {
  if (!/^(0|[1-9]\d*)$/.test(key) || Number(key) > end) throw new Misfit(`${path} is no place in the list`);
  return Number(key);
}

function child(branch: Branch, key: string, path: string): unknown {
  if (Array.isArray(branch)) return branch[indexOf(key, branch.length - 1, path)];
  if (!Object.hasOwn(branch, key)) throw new Misfit(`${path} is not there`);
  return branch[key];
}

function put(branch: Branch, key: string, value: unknown): void {
  if (Array.isArray(branch)) branch[Number(key)] = value;
  // a plain assignment to this one name would set what the object inherits
  else if (key === "__proto__") Object.defineProperty(branch, key, { value, enumerable: true, configurable: true, writable: true });
  else branch[key] = value;
}

function valueOf(operation: PatchOperation): unknown {
  if (operation.op === "remove" || operation.value === undefined) throw new Misfit(`${operation.op} of ${operation.path || "all"} has no value`);
  return operation.value;
}

function changeItem(list: unknown[], key: string, operation: PatchOperation): void {
  if (operation.op === "add") {
    const at = key === "-" ? list.length : indexOf(key, list.length, operation.path);
    list.splice(at, 0, valueOf(operation));
    return;
  }
  const at = indexOf(key, list.length - 1, operation.path);
  if (operation.op === "remove") list.splice(at, 1);
  else list[at] = valueOf(operation);
}

function changeMember(table: Record<string, unknown>, key: string, operation: PatchOperation): void {
  if (operation.op !== "add" && !Object.hasOwn(table, key)) throw new Misfit(`${operation.path} is not there`);
  if (operation.op === "remove") delete table[key];
  else put(table, key, valueOf(operation));
}
