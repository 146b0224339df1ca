import { describe, expect, it } from "vitest";
import { measures as measuresIn } from "../units/measures";
import { drawnPlot, headingOf, plotOf } from "./drawn";
import { sampleLine, samplePlot } from "./sample_plot";
import { csvOf, tableOf } from "./table";

const measures = measuresIn("metric");
const fan = sampleLine("rebound needle 0", [0.1, 2], [-160, -2600], { name: "0 clicks", column: "rebound, needle 0 clicks", behind: true, down: true, weight: "thin" });
const rebound = sampleLine("rebound", [0.1, 2], [-150, -2500], { name: "rebound, 10 clicks", down: true, dash: "long" });
const plot = samplePlot([fan, rebound]);

describe("a plot of the document on the page", () => {
  it("has the units of its axes", () => {
    expect(drawnPlot(plot, measures).x.measure.unit).toBe("m/s");
    expect(drawnPlot(plot, measuresIn("imperial")).y.measure.unit).toBe("lbf");
    const lift = samplePlot([], { y: { ...plot.y, kind: "length", thickness: true } });
    expect(drawnPlot(lift, measures).y.measure.text(0.0002)).toBe("0.20\u2009mm");
    const pressure = samplePlot([], { y: { ...plot.y, kind: "pressure", reference: "absolute" } });
    expect(drawnPlot(pressure, measures).y.measure.unit).toBe("bar(a)");
  });

  it("draws another build thin and grey behind the heavy lines, says so, and leaves its fan out", () => {
    const spec = drawnPlot(plot, measures, { name: "revision A", plot });
    expect(spec.lines.map((line) => line.key)).toEqual(["rebound needle 0", "ghost rebound", "rebound"]);
    expect(spec.lines[1]).toMatchObject({ name: "revision A", column: "revision A, rebound, 10 clicks", ink: "steel", weight: "thin", dash: "long", down: true });
    expect(spec.caption).toBe("c. Thin grey: revision A.");
  });

  it("rules where the slider stands", () => {
    expect(drawnPlot(plot, measures).rules).toEqual([]);
    expect(drawnPlot(plot, measures, undefined, 0.5).rules).toEqual([{ x: 0.5, text: "", ink: "copper" }]);
  });

  it("leaves spare lines out, in the table too", () => {
    const spec = drawnPlot(samplePlot([rebound, { ...rebound, key: "more", name: "more", spare: true }]), measures);
    expect(spec.lines.map((line) => line.key)).toEqual(["rebound"]);
    expect(csvOf(tableOf(spec, null))).not.toContain("more");
  });

  it("is found by its id, and a line's heading is what tells it from the others", () => {
    expect(plotOf({ plots: [plot] }, "force-over-speed")).toBe(plot);
    expect(plotOf({ plots: [plot] }, "lift-over-pressure")).toBeUndefined();
    expect(plotOf(undefined, "force-over-speed")).toBeUndefined();
    expect([fan, rebound, { ...rebound, name: "" }].map(headingOf)).toEqual(["rebound, needle 0 clicks", "rebound, 10 clicks", "rebound"]);
  });
});
