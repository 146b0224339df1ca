import { describe, expect, it } from "vitest";
import { Misfit, patched, type PatchOperation } from "./patch";

const add = (path: string, value: unknown): PatchOperation => ({ op: "add", path, value });
const replace = (path: string, value: unknown): PatchOperation => ({ op: "replace", path, value });
const remove = (path: string): PatchOperation => ({ op: "remove", path });

describe("a patch, by the cases of RFC 6902 appendix A", () => {
  const cases: [string, unknown, PatchOperation[], unknown][] = [
    ["A.1 adding an object member", { foo: "bar" }, [add("/baz", "qux")], { baz: "qux", foo: "bar" }],
    ["A.2 adding an array element", { foo: ["bar", "baz"] }, [add("/foo/1", "qux")], { foo: ["bar", "qux", "baz"] }],
    ["A.3 removing an object member", { baz: "qux", foo: "bar" }, [remove("/baz")], { foo: "bar" }],
    ["A.4 removing an array element", { foo: ["bar", "qux", "baz"] }, [remove("/foo/1")], { foo: ["bar", "baz"] }],
    ["A.5 replacing a value", { baz: "qux", foo: "bar" }, [replace("/baz", "boo")], { baz: "boo", foo: "bar" }],
    ["A.10 adding a nested member object", { foo: "bar" }, [add("/child", { grandchild: {} })], { foo: "bar", child: { grandchild: {} } }],
    ["A.14 tildes and slashes in a name", { "/": 9, "~1": 10 }, [replace("/~01", 11)], { "/": 9, "~1": 11 }],
    ["A.16 adding an array value", { foo: ["bar"] }, [add("/foo/-", ["abc", "def"])], { foo: ["bar", ["abc", "def"]] }],
  ];
  it.each(cases)("%s", (_, before, operations, after) => {
    expect(patched(before, operations)).toEqual(after);
  });

  it("A.12 adding to a target that is not there is refused", () => {
    expect(() => patched({ foo: "bar" }, [add("/baz/bat", "qux")])).toThrow(Misfit);
  });
});

describe("a patch", () => {
  it("takes the whole document by the empty pointer", () => {
    expect(patched({ foo: 1 } as unknown, [replace("", [1])])).toEqual([1]);
  });

  it("keeps a null, an empty name and names that every object inherits", () => {
    expect(patched<unknown>({ a: 1 }, [replace("/a", null)])).toEqual({ a: null });
    expect(patched<unknown>({ "": 1 }, [replace("/", 2)])).toEqual({ "": 2 });
    const odd = patched<Record<string, unknown>>({}, [add("/__proto__", { x: 1 })]);
    expect(Object.keys(odd)).toEqual(["__proto__"]);
    expect(() => patched({}, [remove("/toString")])).toThrow(Misfit);
  });

  it.each([
    ["a member to replace that is not there", [replace("/b", 1)]],
    ["a member to remove that is not there", [remove("/b")]],
    ["a place past the end", [replace("/list/2", 1)]],
    ["a gap in a list", [add("/list/3", 1)]],
    ["a place with a leading zero", [replace("/list/01", 1)]],
    ["no place in a list", [replace("/list/-", 1)]],
    ["a way through a number", [replace("/a/b", 1)]],
    ["a pointer without its slash", [replace("a", 1)]],
    ["a replacement without a value", [{ op: "replace", path: "/a" } as PatchOperation]],
    ["all taken away", [remove("")]],
  ])("refuses %s, and leaves the document as it was", (_, operations) => {
    const document = { a: 1, list: [1, 2] };
    expect(() => patched(document, [replace("/list/0", 9), ...operations])).toThrow(Misfit);
    expect(document).toEqual({ a: 1, list: [1, 2] });
  });

  it("leaves what it does not touch as the same objects", () => {
    const document = { units: [{ force: { rows: [1, 2] }, post: { z: 1 } }, { force: {}, post: {} }], findings: [{ code: "F1" }] };
    const next = patched(document, [replace("/units/0/force/rows", [3]), replace("/units/0/force/rows/0", 4)]);
    expect(next.units[0]?.force).toEqual({ rows: [4] });
    expect(next.units[0]?.post).toBe(document.units[0]?.post);
    expect(next.units[1]).toBe(document.units[1]);
    expect(next.findings).toBe(document.findings);
    expect(document.units[0]?.force.rows).toEqual([1, 2]);
  });

  it("does not write into the values of its own operations", () => {
    const value = { rows: [1] };
    const next = patched({} as { force?: { rows: number[] } }, [add("/force", value), replace("/force/rows/0", 2)]);
    expect(next.force?.rows).toEqual([2]);
    expect(value).toEqual({ rows: [1] });
  });
});

/** Numbers below a bound, always the same row of them: xorshift32. */
function dice(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}

const deepest = 4;
const names = ["a", "b/c", "d~e", "", "0", "12", "é"];

function anyDocument(roll: (below: number) => number, depth: number): unknown {
  const kind = depth === deepest ? 4 + roll(4) : roll(depth === 0 ? 4 : 8); // the whole is no bare number
  if (kind === 0) return roll(100) / 8;
  if (kind === 1) return ["", "text", "~1"][roll(3)];
  if (kind === 2) return roll(2) === 0;
  if (kind === 3) return null;
  if (kind < 6) return Array.from({ length: roll(5) }, () => anyDocument(roll, depth - 1));
  return Object.fromEntries(names.filter(() => roll(2) === 0).map((name) => [name, anyDocument(roll, depth - 1)]));
}

type Table = Record<string, unknown>;
const isTable = (one: unknown): one is Table => typeof one === "object" && one !== null && !Array.isArray(one);

/** Operations from one document to the other: lists member by member, what is over at the end goes or comes. */
function differences(from: unknown, to: unknown, path = ""): PatchOperation[] {
  const below = (key: string): string => `${path}/${key.replaceAll("~", "~0").replaceAll("/", "~1")}`;
  if (isTable(from) && isTable(to)) {
    const gone = Object.keys(from).filter((key) => !(key in to)).map((key) => remove(below(key)));
    const rest = Object.keys(to).flatMap((key) => (key in from ? differences(from[key], to[key], below(key)) : [add(below(key), to[key])]));
    return [...gone, ...rest];
  }
  if (Array.isArray(from) && Array.isArray(to)) {
    const both = Math.min(from.length, to.length);
    const kept = from.slice(0, both).flatMap((one, index) => differences(one, to[index], below(String(index))));
    const gone = from.slice(both).map(() => remove(below(String(both))));
    return [...kept, ...gone, ...to.slice(both).map((one) => add(below("-"), one))];
  }
  return JSON.stringify(from) === JSON.stringify(to) ? [] : [replace(path, to)];
}

/** Each object of both documents that has the same path and the same content must be one object. */
function sameWhereEqual(before: unknown, after: unknown): boolean {
  if (JSON.stringify(before) === JSON.stringify(after) && (isTable(before) || Array.isArray(before))) return before === after;
  if (isTable(before) && isTable(after)) return Object.keys(after).every((key) => !(key in before) || sameWhereEqual(before[key], after[key]));
  if (Array.isArray(before) && Array.isArray(after)) return after.every((one, index) => index >= before.length || sameWhereEqual(before[index], one));
  return true;
}

describe("a patch between any two documents", () => {
  it("gives the second, leaves the first, and keeps every part that both have", () => {
    const roll = dice(20261125);
    let nOperations = 0;
    for (let n = 0; n < 2000; ++n) {
      const [from, to] = [anyDocument(roll, deepest), anyDocument(roll, deepest)];
      const wasFrom = JSON.stringify(from);
      const operations = differences(from, to);
      nOperations += operations.length;
      const next = patched(from, operations);
      expect(next).toEqual(to);
      expect(JSON.stringify(from)).toBe(wasFrom);
      expect(sameWhereEqual(from, next)).toBe(true);
    }
    expect(nOperations).toBeGreaterThan(4000);
  });
});
