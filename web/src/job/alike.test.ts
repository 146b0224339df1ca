import { describe, expect, it } from "vitest";
import { alike } from "./alike";

describe("a document like the one before", () => {
  it("is the old one when it says the same", () => {
    const old = { values: { a: "1", b: "2" }, drafts: [] };
    expect(alike(old, structuredClone(old))).toBe(old);
  });

  it("takes the parts that stayed from the old one, and writes to neither", () => {
    const old = { drafts: [{ path: "a" }], values: { a: "1" }, list: [{ x: 1 }, { x: 2 }] };
    const fresh = { drafts: [{ path: "a" }], values: { a: "2" }, list: [{ x: 3 }, { x: 2 }] };
    const texts = [JSON.stringify(old), JSON.stringify(fresh)];
    const found = alike(old, fresh);
    expect(found).toEqual(fresh);
    expect(found.drafts).toBe(old.drafts);
    expect(found.list[1]).toBe(old.list[1]);
    expect(found.values).toBe(fresh.values);
    expect([JSON.stringify(old), JSON.stringify(fresh)]).toEqual(texts);
  });

  it.each<[string, unknown, unknown]>([
    ["a member that came", { a: {} }, { a: {}, b: undefined }],
    ["a member that went", { a: {}, b: 1 }, { a: {} }],
    ["a longer list", [[1]], [[1], [2]]],
    ["a shorter list", [[1], [2]], [[1]]],
    ["a list for a table", { 0: "a" }, ["a"]],
    ["a null for a table", { a: {} }, { a: null }],
    ["a text for a number", [1], ["1"]],
    ["nothing before", undefined, { a: 1 }],
  ])("sees %s", (_, old, fresh) => {
    const found = alike(old, fresh);
    expect(found).toStrictEqual(fresh);
    expect(found).not.toBe(old);
  });
});
