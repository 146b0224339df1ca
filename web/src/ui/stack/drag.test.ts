import { describe, expect, it } from "vitest";
import { belowGap, Drag, stepOf } from "./drag.svelte";
import { ROW } from "./section";
import type { Bench } from "./steps";

// three entries, the face shim lowest
const rows = { width: 300, height: 3 * ROW + 20, tops: [2 * ROW, ROW, 0] };
const bench: Bench = {
  list: "s",
  entries: ["a", "b", "c"].map((text, i) => ({ path: `s[${i}]`, text })),
  sizes: [null, null, null],
  parts: [],
  unit: "mm",
};
const middle = (row: number): { x: number; y: number } => ({ x: 150, y: rows.tops[row]! + ROW / 2 });
const taken = (row: number): Drag => {
  const drag = new Drag();
  drag.take(row, 1, middle(row), undefined);
  return drag;
};

describe("an entry under a finger", () => {
  it("is not moved by a hand that only touches it", () => {
    const drag = taken(0);
    expect(drag.move(1, { x: 153, y: middle(0).y - 3 }, rows)).toBe(false);
    expect(drag.on).toBe(false);
    expect(drag.drop(1)).toBeNull();
    expect(drag.held).toBeNull();
  });

  it("goes where the finger is, and tells when that is another place", () => {
    const drag = taken(0);
    expect(drag.move(1, { x: 150, y: middle(0).y - 10 }, rows)).toBe(true); // it begins
    expect(drag.move(1, { x: 150, y: middle(0).y - 12 }, rows)).toBe(false);
    expect(drag.move(1, { x: 150, y: middle(1).y - 4 }, rows)).toBe(true);
    expect(drag.held?.to).toBe(1);
    expect(drag.move(1, { x: 150, y: -4 }, rows)).toBe(true);
    expect(drag.held).toMatchObject({ to: 2, by: { x: 0, y: -4 - middle(0).y } });
    expect(stepOf(bench, drag.drop(1)!)).toMatchObject({ edits: [{ move: "s[0]", to: 2 }] });
  });

  it("is taken out past the edge of the picture, and not before", () => {
    const drag = taken(1);
    drag.move(1, { x: -30, y: middle(1).y }, rows);
    expect(drag.held?.to).toBe(1);
    drag.move(1, { x: -40, y: middle(1).y }, rows);
    expect(drag.held?.to).toBeNull();
    expect(stepOf(bench, drag.held!)).toMatchObject({ edits: [{ remove: "s[1]" }] });
  });

  it("does not hear another finger", () => {
    const drag = taken(1);
    expect(drag.move(2, { x: 150, y: 0 }, rows)).toBe(false);
    expect(drag.drop(2)).toBeNull();
    expect(drag.held?.index).toBe(1);
  });

  it("is back where it lay when the drag is broken off", () => {
    const drag = taken(1);
    expect(drag.cancel()).toBe(false);
    drag.take(1, 1, middle(1), undefined);
    drag.move(1, { x: 150, y: 0 }, rows);
    expect(drag.cancel()).toBe(true);
    expect(drag.held).toBeNull();
  });

  it("has its gap above the entry that it would lie on", () => {
    const drag = taken(1);
    expect(belowGap(drag.held)).toBeNull();
    drag.move(1, { x: 150, y: -4 }, rows); // under the clamp
    expect(belowGap(drag.held)).toBe(2);
    drag.move(1, { x: 150, y: 3 * ROW }, rows); // on the seat
    expect(belowGap(drag.held)).toBe(-1);
    drag.move(1, middle(1), rows);
    expect(belowGap(drag.held)).toBeNull();
  });
});
