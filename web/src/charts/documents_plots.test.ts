import { describe, expect, it } from "vitest";
import { measures as measuresIn } from "../units/measures";
import type { ForceLike, SpringLike } from "./documents";
import { trouble } from "./documents";
import { forcePlot, inFan } from "./force_plot";
import { loopPlot, loopsOf, parted } from "./loop_plot";
import { pressurePlot } from "./pressure_plot";
import { springPlot } from "./spring_plot";
import { csvOf, tableOf } from "./table";
import { releasePlot, stepPlot } from "./time_plot";

const measures = measuresIn("metric");
const point = (speed: number, force: number, cavitated: boolean): ForceLike["curves"][number]["points"][number] => ({
  speed,
  force,
  compression_pressure: 2e6 + 1e6 * speed,
  rod_pressure: cavitated ? 2e4 : 1e6,
  reservoir_pressure: 1e6,
  cavitated,
});
const force: ForceLike = {
  curves: [
    { stroke: "compression", points: [point(0.1, 100, false), point(1, 900, false), point(2, 1200, true)] },
    { stroke: "rebound", points: [point(0.1, 150, false), point(1, 1300, false), point(2, 2500, false)] },
  ],
  families: [
    {
      adjuster: "rebound needle",
      stroke: "rebound",
      speed: [0.1, 1, 2],
      members: [0, 10, 20].map((clicks) => ({ clicks, present: clicks === 10, force: [160, 1400, 2600], cavitated: [false, false, false] })),
    },
  ],
  cavitation: [
    { stroke: "compression", chamber: "rod chamber", release_pressure: 2e4, speed_lost: 1.4 },
    { stroke: "rebound", chamber: "compression chamber", release_pressure: 2e4 },
  ],
};

describe("force over speed", () => {
  it("shows compression up, rebound down in long dashes, both read as positive", () => {
    const { series } = forcePlot(force, measures);
    const rebound = series.find((s) => s.key === "rebound")!;
    expect(rebound).toMatchObject({ dash: "long", down: true, name: "rebound, 10 clicks", weight: "heavy" });
    expect(rebound.y).toEqual([-150, -1300, -2500]);
    expect(series.find((s) => s.key === "compression")).toMatchObject({ dash: "solid", name: "compression" });
  });

  it("leaves the present click out of its fan and names only the outermost", () => {
    const fan = forcePlot(force, measures).series.filter((s) => s.behind);
    expect(fan.map((s) => s.name)).toEqual(["0 clicks", "20 clicks"]);
    expect(inFan(23)).toHaveLength(7);
    expect([inFan(23)[0], inFan(23)[6]]).toEqual([0, 22]);
    expect(inFan(3)).toEqual([0, 1, 2]);
  });

  it("breaks into dots past the cavitation speed and says which chamber and why", () => {
    const spec = forcePlot(force, measures);
    expect(spec.series.find((s) => s.key === "compression")!.dotted).toEqual([false, false, true]);
    expect(spec.marks!.map((m) => m.text)).toEqual(["rod chamber draws air past 2.00\u2009m/s"]);
    expect(spec.caption).toContain("draws air");
  });

  it("tells both lines of a ghost apart", () => {
    const ghosts = forcePlot(force, measures, { name: "revision A", of: force }).series.filter((s) => s.key.startsWith("ghost"));
    expect(ghosts.map((s) => s.column)).toEqual(["revision A, compression", "revision A, rebound"]);
    expect(ghosts.every((s) => s.ink === "steel" && s.weight === "thin")).toBe(true);
  });
});

describe("pressures over speed", () => {
  it("dots only the chamber at risk, and says at which speed it meets the line", () => {
    const spec = pressurePlot(force, "compression", measures);
    expect(spec.series.filter((s) => s.dotted?.some(Boolean)).map((s) => s.key)).toEqual(["rod"]);
    expect(spec.caption).toContain("1.40\u2009m/s");
    expect(pressurePlot(force, "rebound", measures).caption).toContain("keeps clear");
  });

  it("survives a stroke that was not computed", () => {
    expect(pressurePlot({ ...force, curves: [] }, "rebound", measures).series).toEqual([]);
  });
});

describe("springs over travel", () => {
  const springs: SpringLike = {
    names: ["air", "coil"],
    travel: 0.3,
    points: [0, 0.15, 0.3].map((travel) => ({ travel, force: 100 + 5000 * travel, rate: 5000, shares: [100, 5000 * travel] })),
    sag: [
      { name: "static", travel: 0.03, topped_out: false, bottomed: false },
      { name: "rider", travel: 0, topped_out: true, bottomed: false },
    ],
    air_end_travel: 0.29,
  };

  it("draws each share and their sum, marks the sag that there is", () => {
    const spec = springPlot(springs, measures);
    expect(spec.series.map((s) => s.name)).toEqual(["air", "coil", "all springs"]);
    expect(spec.marks!.map((m) => m.text)).toEqual(["static sag 30.0\u2009mm"]);
    expect(spec.rules).toHaveLength(1);
  });

  it("of one spring alone draws one line", () => {
    const one = { ...springs, names: ["coil"], points: springs.points.map((p) => ({ ...p, shares: [p.force] })) };
    expect(springPlot(one, measures).series.map((s) => s.name)).toEqual(["coil"]);
  });
});

describe("bench loops", () => {
  const loop = { time: [0, 1, 2, 3], travel: [0, 1, 0, -1], speed: [1, 0, -1, 0], force: [10, 0, -10, 0], springs: [4, 5, 4, 3], lock: [0, 0, 0, 0] };
  const events: never[] = [];

  it("are closed lines, the measured one beside the computed one where it was measured", () => {
    const loops = loopsOf([
      { name: "sine 1 Hz", kind: "sine", loop, events },
      { name: "step", kind: "step", loop, events },
      { name: "stroke 3", kind: "recorded", loop, events, measured: { travel: loop.travel, force: loop.force } },
    ]);
    expect(loops.map((l) => l.name)).toEqual(["sine 1 Hz", "stroke 3", "stroke 3, measured"]);
    expect(loopPlot(loops, "travel", measures).series).toHaveLength(3);
    expect(loopPlot(loops, "speed", measures).series).toHaveLength(2);
    expect(loopPlot(loops, "travel", measures).series.every((s) => s.closed)).toBe(true);
  });

  it("of the damper alone have the springs taken off, and say so", () => {
    const loops = loopsOf([{ name: "sine 1 Hz", kind: "sine", loop, events }], "damper");
    expect(loops[0]!.force).toEqual([6, -5, -14, -3]);
    expect(loopPlot(loops, "travel", measures, "damper alone").title).toBe("Bench loops, force over travel, damper alone");
  });
});

describe("over time", () => {
  const loop = { time: [2, 2.1, 2.2], travel: [0.1, 0.15, 0.2], speed: [0, 1, 0], force: [100, 400, 300], springs: [50, 75, 100], lock: [0, 0, 60] };
  const event = (k: number) => ({ time: 2 + 0.01 * k, travel: 0.1, force: 100 + k, what: `event ${k}` });
  const step = { name: "step", kind: "step", loop, events: [event(0), event(1)] };

  it("a step starts at zero, and its events stand at their force by number", () => {
    const spec = stepPlot(step, false, measures);
    expect(spec.series.map((s) => s.name)).toEqual(["force", "oil lock"]);
    expect(spec.series[0]!.x[0]).toBe(0);
    expect(spec.marks!.map((m) => [m.text, m.y])).toEqual([
      ["1", 100],
      ["2", 101],
    ]);
    expect(spec.marks![1]!.x).toBeCloseTo(0.01, 12);
  });

  it("with springs in shows theirs and the damper's beside the whole, in the table and the CSV too", () => {
    const spec = stepPlot(step, true, measures);
    expect(spec.series.map((s) => s.name)).toEqual(["all", "damper alone", "springs", "oil lock"]);
    expect(spec.series[1]!.y).toEqual([50, 325, 200]);
    expect(csvOf(tableOf(spec, null)).split("\r\n")[2]).toBe("0.1,400,325,75,0");
  });

  it("marks no more than a dozen events", () => {
    expect(stepPlot({ ...step, events: Array.from({ length: 20 }, (_, k) => event(k)) }, false, measures).marks).toHaveLength(12);
  });

  it("the rod let go has a line for each state, the well bled one heavy and the dragging one in another ink", () => {
    const trace = (name: string) => ({ name, time: [0, 0.1], travel: [0.2, 0], force: [80, 0], events: [event(0)] });
    const traces = ["well bled", "1 mL of air", "dragging seal"].map(trace);
    const travel = releasePlot(traces, "travel", measures);
    expect(travel.series.map((s) => [s.weight, s.ink])).toEqual([
      ["heavy", "ink"],
      ["plain", "ink"],
      ["plain", "look"],
    ]);
    expect(travel.marks).toBeUndefined();
    expect(releasePlot(traces, "force", measures).marks).toHaveLength(0); // the test's event comes after the force has died
  });

  it("the force of the rod let go is shown until it has died away, its travel to the end", () => {
    const time = Array.from({ length: 101 }, (_, i) => 0.1 * i);
    const trace = { name: "well bled", time, travel: time.map((t) => 10 - t), force: time.map((t) => 100 * Math.exp(-10 * t)), events: [{ ...event(0), time: 0.2 }, { ...event(1), time: 5 }] };
    // 100 exp(-10 t) is 2 N at 0.39 s: the next sample stands at 0.4 s, and a quarter more is shown
    const force = releasePlot([trace], "force", measures);
    expect(force.series[0]!.x.at(-1)).toBeCloseTo(0.5, 12);
    expect(force.marks!.map((m) => m.text)).toEqual(["1"]);
    expect(releasePlot([trace], "travel", measures).series[0]!.x.at(-1)).toBe(10);
  });
});

describe("names of runs", () => {
  it("lose what they all begin with, never all of a name", () => {
    expect(parted(["sine 18 mm, 1 Hz, 0.1 m/s", "sine 18 mm, 2 Hz, 0.2 m/s"])).toEqual({ common: "sine 18 mm", own: ["1 Hz, 0.1 m/s", "2 Hz, 0.2 m/s"] });
    expect(parted(["sine", "sine"]).own).toEqual(["sine", "sine"]);
    expect(parted(["sine 18 mm, 1 Hz"])).toEqual({ common: "", own: ["sine 18 mm, 1 Hz"] });
    expect(parted([])).toEqual({ common: "", own: [] });
  });
});

describe("a solver's trouble", () => {
  it("is a sentence of the caption", () => {
    expect(trouble({ status: "stalled", note: "the foot valve passes more than its stack was solved for" })).toBe(
      " The foot valve passes more than its stack was solved for.",
    );
    expect(trouble({ status: "converged", note: "" })).toBe("");
    expect(trouble({ status: "stalled", note: "" })).toContain("stalled");
  });
});
