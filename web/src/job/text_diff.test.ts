import { describe, expect, it } from "vitest";
import { type DiffRow, excerptOf, rowsOf } from "./text_diff";

const side = (rows: readonly DiffRow[], which: "left" | "right"): string =>
  rows.flatMap((row) => (row[which] === undefined ? [] : [row[which]])).join("\n");

describe("two texts side by side", () => {
  const cases: [string, string, string, number][] = [
    ["the same", "a\nb\nc", "a\nb\nc", 0],
    ["a line changed", "a\nb\nc", "a\nB\nc", 1],
    ["a line more", "a\nc", "a\nb\nc", 1],
    ["a line less", "a\nb\nc", "a\nc", 1],
    ["nothing against something", "", "a\nb", 2],
    ["moved", "a\nb\nc\nd", "b\nc\nd\na", 2],
    ["nothing in common", "a\nb", "c\nd\ne", 3],
  ];
  it.each(cases)("%s", (_, left, right, nDifferent) => {
    const rows = rowsOf(left, right);
    expect(side(rows, "left")).toBe(left);
    expect(side(rows, "right")).toBe(right);
    expect(rows.filter((row) => row.left !== row.right).length).toBe(nDifferent);
  });

  it("keeps both whole where they are too long to be compared line by line", () => {
    const left = Array.from({ length: 3000 }, (_, n) => `left ${n}`).join("\n");
    const right = Array.from({ length: 3000 }, (_, n) => `right ${n}`).join("\n");
    const rows = rowsOf(left, right);
    expect(side(rows, "left")).toBe(left);
    expect(side(rows, "right")).toBe(right);
  });

  it("leaves out what is the same, and says how much", () => {
    const left = Array.from({ length: 20 }, (_, n) => `line ${n}`);
    const right = left.map((line, n) => (n === 10 ? "other" : line));
    expect(excerptOf(rowsOf(left.join("\n"), right.join("\n")))).toEqual([
      8,
      { left: "line 8", right: "line 8" },
      { left: "line 9", right: "line 9" },
      { left: "line 10", right: "other" },
      { left: "line 11", right: "line 11" },
      { left: "line 12", right: "line 12" },
      7,
    ]);
  });
});
