import { describe, expect, it } from "vitest";
import type { Draft } from "../../api/model";
import { entriesOf, type StackEntry, tomlOf, withCount, withShim } from "./entries";

const text = (t: string): StackEntry => ({ path: "s[0]", text: t });
const part = { name: "20x0.15", label: "20 x 0.15 mm", outer_diameter: 0.02, thickness: 0.00015 };

describe("an entry of a stack", () => {
  it("takes another count and keeps the rest as it was typed", () => {
    expect(withCount(text("3 × 24 x 0.150 mm"), 4)).toEqual({ set: "s[0]", typed: "4 × 24 x 0.150 mm" });
    expect(withCount(text("24 x 0.15 mm"), 2)).toEqual({ set: "s[0]", typed: "2 x 24 x 0.15 mm" });
    expect(withCount(text("shim 20x0.15"), 2)).toEqual({ set: "s[0]", typed: "2 x shim 20x0.15" });
    expect(withCount({ path: "s[1]", text: "", fields: { count: "2" } }, 3)).toEqual({ set: "s[1].count", typed: "3" });
  });

  it("becomes another shim in its own manner", () => {
    expect(withShim(text("3 x 24 x 0.15 mm"), part)).toEqual([{ set: "s[0]", typed: "3 x 20 x 0.15 mm" }]);
    expect(withShim(text("3 x shim 24x0.15"), part)).toEqual([{ set: "s[0]", typed: "3 x shim 20x0.15" }]);
    expect(withShim({ path: "s[0]", text: "", fields: { outer_diameter: "23 mm", thickness: "0.3 mm" } }, part)).toEqual([
      { set: "s[0].outer_diameter", typed: "20 mm" },
      { set: "s[0].thickness", typed: "0.15 mm" },
    ]);
  });

  it("comes from the values of a job, in order, with its draft", () => {
    const list = "unit[0].piston_valve.rebound.stack";
    const values = {
      [`${list}[1]`]: "1 x 16 x 0.10 mm",
      [`${list}[0]`]: "3 x 21 x 0.10 mm",
      [`${list}[2].outer_diameter`]: "23 mm",
      [`${list}[2].thickness`]: "0.30 mm",
      [`${list}[2].count`]: "2",
      [`${list}_other[0]`]: "not this",
    };
    const drafts = [{ path: `${list}[1]`, typed: "1 x 16 x", diagnostic: { what: "not a shim", remedy: "write all three" } }] as Draft[];
    const entries = entriesOf(values, drafts, list);
    expect(entries.map((e) => e.text)).toEqual(["3 x 21 x 0.10 mm", "1 x 16 x 0.10 mm", "2 x 23 mm x 0.30 mm"]);
    expect(entries[1]!.draft).toEqual({ typed: "1 x 16 x", what: "not a shim", remedy: "write all three" });
    expect(tomlOf(entries[2]!)).toBe('{ outer_diameter = "23 mm", thickness = "0.30 mm", count = 2 }');
  });

  it("stands in its place while it is not in the file yet", () => {
    const values = { "s[0]": "3 x 24 x 0.15 mm", "s[1]": "1 x 16 x 0.10 mm" };
    const drafts = [
      { path: "s[1]", typed: "2 x 22 x", insert: true, diagnostic: { what: "no thickness", remedy: "" } },
      { path: "s[2]", typed: "one more", insert: true, diagnostic: { what: "no shim", remedy: "" } },
    ] as Draft[];
    const entries = entriesOf(values, drafts, "s");
    expect(entries.map((e) => [e.path, e.text, e.insert ?? false])).toEqual([
      ["s[0]", "3 x 24 x 0.15 mm", false],
      ["s[1]", "2 x 22 x", true],
      ["s[1]", "1 x 16 x 0.10 mm", false],
      ["s[2]", "one more", true],
    ]);
    expect(entries[2]!.draft).toBeUndefined();
    expect(entriesOf({}, [{ ...drafts[1]!, path: "s[0]" }], "s")).toHaveLength(1);
  });

  it("alone in its list has the list's own path", () => {
    expect(entriesOf({ "stack.discs": "3 x 24 x 0.15 mm" }, [], "stack.discs").map((e) => e.path)).toEqual(["stack.discs"]);
    expect(entriesOf({}, [], "stack.discs")).toEqual([]);
  });
});
