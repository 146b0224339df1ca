import { describe, expect, it } from "vitest";
import { below, readingsAt, stepped, stops } from "./cursor";
import { measures as measuresIn } from "../units/measures";
import { drawnPlot } from "./drawn";
import { sampleLine, samplePlot } from "./sample_plot";
import { csvOf, tableOf } from "./table";

const spec = drawnPlot(
  samplePlot(
    [
      sampleLine("compression", [0, 1, 2], [0, 100, 300]),
      sampleLine("rebound", [0, 1, 2], [0, -200, -500], { dotted: [false, false, true], down: true }),
      sampleLine("f", [0, 1, 2], [0, 90, 290], { name: "", column: "fan, 3 clicks", behind: true, weight: "thin" }),
    ],
    { dots: "draws air" },
  ),
  measuresIn("metric"),
);

describe("the cursor", () => {
  it("reads between points, the rebound as a positive force", () => {
    const [c, r] = readingsAt(spec, 1.5);
    expect(c!.own).toBe(200);
    expect(r!.own).toBe(350);
    expect(r!.y).toBe(-350);
    expect(r!.dotted).toBe(true);
  });

  it("reads nothing where a line does not reach, and no fan", () => {
    expect(readingsAt(spec, 2.5)).toEqual([]);
    expect(readingsAt(spec, 1)).toHaveLength(2);
  });

  it("steps from point to point and stays at the ends", () => {
    const list = stops(spec);
    expect(list).toEqual([0, 1, 2]);
    expect(stepped(list, null, 1)).toBe(0);
    expect(stepped(list, null, -1)).toBe(2);
    expect(stepped(list, 1, 1)).toBe(2);
    expect(stepped(list, 2, 1)).toBe(2);
    expect(stepped(list, 1.4, -1)).toBe(1);
    expect(stepped(list, 1.4, 1)).toBe(2);
    expect(stepped([], 1, 1)).toBeNull();
    expect(below([1, 2, 3], 0.5)).toBe(-1);
  });
});

describe("the table of a plot", () => {
  it("holds every line, the fan too, in the piece that is shown", () => {
    const table = tableOf(spec, { min: 1, max: 2 });
    expect(table.columns.map((c) => c.title)).toEqual(["shaft speed", "compression", "rebound", "fan, 3 clicks"]);
    expect(table.rows).toHaveLength(2);
  });

  it("saves numbers with units above and a remark where air is drawn", () => {
    const csv = csvOf(tableOf(spec, null)).split("\r\n");
    expect(csv[0]).toBe('shaft speed [m/s],compression [N],rebound [N],"rebound, remark","fan, 3 clicks [N]"');
    expect(csv[3]).toBe("2,300,500,draws air,290");
    expect(csv).toHaveLength(5);
  });

  it("has its rows where the present line was computed, other lines as drawn, and nothing beyond their ends", () => {
    const ghost = { ...spec.lines[0]!, key: "g", name: "A", weight: "thin" as const, x: [0, 0.5, 1.5], y: [0, 5, 15] };
    const table = tableOf({ ...spec, lines: [ghost, spec.lines[0]!] }, null);
    expect(table.columns.map((c) => c.title)).toEqual(["shaft speed", "compression", "A"]);
    expect(table.rows.map((r) => (typeof r[2] === "object" && r[2] ? r[2].si : r[2]))).toEqual([0, 10, null]);
  });
});
