import { describe, expect, it } from "vitest";
import { stressRows } from "./stress_rows";

const discs = [
  { number: 1, stress: 3e8, fatigue_margin: 2 },
  { number: 2, stress: 6e8, fatigue_margin: 0.9 },
  { number: 3, stress: 1e8 },
];

describe("the bars of stress", () => {
  it("stand as the discs lie, the clamp first, on one scale", () => {
    const rows = stressRows(discs, ["24 x 0.15 mm", "20 x 0.15 mm", "16 x 0.15 mm"]);
    expect(rows.map((r) => r.label)).toEqual(["16 x 0.15 mm", "20 x 0.15 mm", "24 x 0.15 mm"]);
    expect(rows.map((r) => r.share)).toEqual([1 / 6, 1, 0.5].map((v) => expect.closeTo(v, 9)));
  });

  it("mark the worst, and the one that is over its limit, whose mark lies inside its bar", () => {
    const row = stressRows(discs, [])[1]!;
    expect(row).toMatchObject({ worst: true, over: true, label: "disc 2" });
    expect(row.limit!).toBeLessThan(row.share);
  });

  it("know no limit where no strength is stated", () => {
    expect(stressRows(discs, [])[0]).toMatchObject({ limit: null, margin: null, over: false });
    expect(stressRows([], [])).toEqual([]);
  });
});
