import { describe, expect, it } from "vitest";
import type { StackEntry } from "./entries";
import type { ShimPart } from "./parts";
import { addEntry, addPart, type Bench, changeCount, completed, duplicate, moveTo, removeEntry, retype, sizeOf, stepSize } from "./steps";

const part = (d: number, t: number): ShimPart => ({
  name: `${d}x${t}`,
  label: `${d} x ${t} mm`,
  outer_diameter: d * 1e-3,
  thickness: t * 1e-3,
  bore: 6e-3,
  in_hand: 4,
});
const texts = ["3 x 24 x 0.15 mm", "1 x 16 x 0.1 mm", "1 x shim 20x0.15"];
const entries: StackEntry[] = texts.map((text, i) => ({ path: `v.stack[${i}]`, text }));
const bench: Bench = {
  list: "v.stack",
  entries,
  sizes: [...entries.slice(0, 2).map(sizeOf), { outer_diameter: 0.02, thickness: 0.00015 }],
  parts: [part(24, 0.15), part(22, 0.15), part(20, 0.15), part(16, 0.1), part(24, 0.2)],
  unit: "mm",
};

describe("a step at the stack", () => {
  it("counts up and down, never below one", () => {
    expect(changeCount(bench, 0, 1)).toEqual({ edits: [{ set: "v.stack[0]", typed: "4 x 24 x 0.15 mm" }], words: "4 x 24 x 0.15 mm", select: 0 });
    expect(changeCount(bench, 1, -1)).toHaveProperty("refused");
  });

  it("goes through the sizes in hand, in the manner of the entry", () => {
    expect(stepSize(bench, 0, "outer_diameter", -1)).toMatchObject({ edits: [{ set: "v.stack[0]", typed: "3 x 22 x 0.15 mm" }] });
    expect(stepSize(bench, 0, "thickness", 1)).toMatchObject({ edits: [{ typed: "3 x 24 x 0.2 mm" }] });
    expect(stepSize(bench, 2, "outer_diameter", 1)).toMatchObject({ edits: [{ typed: "1 x shim 22x0.15" }] });
    expect(stepSize(bench, 0, "outer_diameter", 1)).toEqual({ refused: "no larger shim of this thickness in hand" });
  });

  it("moves, takes out and doubles, and keeps the right entry in hand", () => {
    expect(moveTo(bench, 2, 0)).toMatchObject({ edits: [{ move: "v.stack[2]", to: 0 }], select: 0 });
    expect(moveTo(bench, 0, -1)).toHaveProperty("refused");
    expect(removeEntry(bench, 2)).toMatchObject({ edits: [{ remove: "v.stack[2]" }], select: 1 });
    expect(duplicate(bench, 1)).toMatchObject({ edits: [{ insert: "v.stack[2]", typed: "1 x 16 x 0.1 mm" }], select: 2 });
  });

  it("builds a stack from nothing", () => {
    const empty: Bench = { ...bench, entries: [], sizes: [] };
    expect(addPart(empty, -1, part(24, 0.15))).toMatchObject({ edits: [{ insert: "v.stack[0]", typed: "1 x 24 x 0.15 mm" }], select: 0 });
  });

  it("adds from the drawer: one more of the same, or a new entry above the one in hand", () => {
    expect(addPart(bench, 0, part(24, 0.15))).toMatchObject({ edits: [{ set: "v.stack[0]", typed: "4 x 24 x 0.15 mm" }] });
    expect(addPart(bench, 0, part(22, 0.15))).toMatchObject({ edits: [{ insert: "v.stack[1]", typed: "1 x 22 x 0.15 mm" }], select: 1 });
    expect(addPart(bench, 2, part(24, 0.15))).toMatchObject({ edits: [{ insert: "v.stack[3]", typed: "1 x shim 24x0.15" }] });
  });

  it("makes a list of a single text before it adds to it", () => {
    const one: Bench = { ...bench, entries: [{ path: "v.stack", text: "3 x 24 x 0.15 mm" }], sizes: [null] };
    expect(addEntry(one, 0, "22 x 0.15")).toMatchObject({ edits: [{ set: "v.stack", typed: '["3 x 24 x 0.15 mm", "22 x 0.15 mm"]' }] });
  });

  it("holds an entry that cannot be read yet beside those of the file", () => {
    const newcomer: StackEntry = { path: "v.stack[1]", text: "2 x 22 x", insert: true, draft: { typed: "2 x 22 x", what: "", remedy: "" } };
    const mixed: Bench = { ...bench, entries: [entries[0]!, newcomer, ...entries.slice(1)], sizes: [null, null, null, null] };
    expect(retype(mixed, 1, "2 x 22 x 0.15")).toMatchObject({ edits: [{ insert: "v.stack[1]", typed: "2 x 22 x 0.15 mm" }], select: 1 });
    expect(removeEntry(mixed, 1)).toMatchObject({ edits: [{ drop: "v.stack[1]" }] });
    expect(moveTo(mixed, 1, 0)).toHaveProperty("refused");
    // places in the file: the newcomer does not count there
    expect(addEntry(mixed, 2, "20 x 0.15 mm")).toMatchObject({ edits: [{ insert: "v.stack[2]" }], select: 3 });
    expect(moveTo(mixed, 3, 1)).toMatchObject({ edits: [{ move: "v.stack[2]", to: 1 }] });
    expect(moveTo(mixed, 0, 3)).toMatchObject({ edits: [{ move: "v.stack[0]", to: 2 }] });
  });

  it("completes the unit of what is typed, but leaves a part's name and nonsense alone", () => {
    expect(completed(bench, " 3 x 24 x 0.15 ")).toBe("3 x 24 x 0.15 mm");
    expect(completed(bench, "20x0.15")).toBe("20x0.15");
    expect(completed(bench, "2 x 20x0.15")).toBe("2 x 20x0.15");
    expect(completed(bench, "3 x 24 x 0.15 in")).toBe("3 x 24 x 0.15 in");
    expect(completed(bench, "a lot")).toBe("a lot");
  });

  it("keeps what is typed even when it may be wrong, and does nothing when nothing changed", () => {
    expect(retype(bench, 0, "3 x 24 x")).toMatchObject({ edits: [{ set: "v.stack[0]", typed: "3 x 24 x" }] });
    expect(retype(bench, 0, "3 x 24 x 0.15 mm")).toEqual({ refused: "" });
  });
});
