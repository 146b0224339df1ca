import { describe, expect, it } from "vitest";
import type { PlotLine, PlotSpec } from "../api/model";
import { measures as measuresIn } from "../units/measures";
import { drawnPlot } from "./drawn";
import { layoutOf, linesOf } from "./plot_layout";
import { sampleLine, samplePlot } from "./sample_plot";

const measures = measuresIn("metric");

function line(key: string, end: number, more: Partial<PlotLine> = {}): PlotLine {
  const x = Array.from({ length: 41 }, (_, i) => 0.05 * i);
  return sampleLine(key, x, x.map((v) => (end * v) / 2), more);
}
const plot = (lines: PlotLine[], more: Partial<PlotSpec> = {}) => drawnPlot(samplePlot(lines, more), measures);
const all = { x: null, y: null, log: false };

describe("a plot with a size", () => {
  it("keeps every name clear of the others, one or two lines high", () => {
    const names = ["compression needle, 0 clicks", "compression, 12 clicks", "rebound needle, 24 clicks", "all"];
    for (const width of [320, 700, 1300]) {
      const spec = plot(names.map((name, i) => line(name, 900 + i)));
      const boxes = layoutOf(spec, width, 320, all).names.map((n) => [n.y - 8 * n.lines.length, n.y + 8 * n.lines.length]);
      boxes.sort((a, b) => a[0]! - b[0]!);
      for (let i = 1; i < boxes.length; ++i) expect(boxes[i]![0]).toBeGreaterThanOrEqual(boxes[i - 1]![1]! - 1e-6);
    }
  });

  it("leaves the names room inside its width", () => {
    const l = layoutOf(plot([line("compression, 12 clicks", 900)]), 800, 320, all);
    expect(l.right).toBeLessThan(700);
    expect(l.left).toBeGreaterThan(20);
  });

  it("shows both strokes as positive, up and down from one zero", () => {
    const l = layoutOf(plot([line("up", 500), line("down", -700, { down: true })]), 800, 320, all);
    expect(l.yTicks.every((t) => !t.text.includes("\u2212"))).toBe(true);
    expect(l.zero).toBeGreaterThan(l.top);
    expect(l.zero).toBeLessThan(l.bottom);
  });

  it("fits its height to the piece that is shown", () => {
    const l = layoutOf(plot([line("up", 1000)]), 800, 320, { x: { min: 0, max: 0.2 }, y: null, log: false });
    expect(l.y.max).toBeGreaterThanOrEqual(100);
    expect(l.y.max).toBeLessThan(120);
  });

  it("writes the name of a line that ends early at its end", () => {
    const short = line("revision A", 400);
    const l = layoutOf(plot([line("up", 1000), { ...short, x: short.x.slice(0, 15), y: short.y.slice(0, 15) }]), 800, 320, all);
    expect(l.names.map((n) => n.key)).toEqual(["up"]);
    const mark = l.marks.find((m) => m.lines.join(" ") === "revision A")!;
    expect(mark.bare).toBe(true);
    expect(Math.abs(mark.words.left - mark.x)).toBeLessThan(120);
  });

  it.each([
    ["three beside each other", [0.4, 0.42, 0.45]],
    ["six that meet, as lines that all come to rest", [0.5, 0.5, 0.5, 0.5, 0.5, 0.5]],
  ])("keeps marks inside the frame and off each other: %s", (_, places) => {
    const marks = places.map((x) => ({ x, y: 500 * x, text: `rider sag ${x}`, ink: "ink" as const }));
    const l = layoutOf(plot([line("up", 1000)], { marks }), 340, 300, all);
    expect(l.marks).toHaveLength(places.length);
    l.marks.forEach((a, i) => {
      expect(a.words.left).toBeGreaterThanOrEqual(l.left);
      expect(a.words.right).toBeLessThanOrEqual(l.right);
      l.marks.slice(i + 1).forEach((b) => {
        const apart = a.words.right <= b.words.left || b.words.right <= a.words.left || a.words.bottom <= b.words.top || b.words.bottom <= a.words.top;
        expect(apart).toBe(true);
      });
    });
  });

  it("begins a logarithmic axis at the lowest positive speed", () => {
    const l = layoutOf(plot([line("up", 1000)]), 800, 320, { x: null, y: null, log: true });
    expect(l.x.min).toBeCloseTo(0.05);
    expect(l.xTicks.length).toBeGreaterThan(3);
  });

  it("writes the name of each of several nested loops on its own line", () => {
    const turn = Array.from({ length: 96 }, (_, i) => (2 * Math.PI * i) / 96);
    const loop = (force: number): PlotLine =>
      line(`${force} N`, 0, { loop: true, x: turn.map((a) => 1 + Math.sin(a)), y: turn.map((a) => force * Math.cos(a)) });
    const l = layoutOf(plot([100, 400, 900].map(loop)), 700, 340, all);
    expect(l.marks).toHaveLength(3);
    for (const [k, force] of [100, 400, 900].entries()) {
      const { words } = l.marks[k]!;
      const [cx, cy] = [(words.left + words.right) / 2, (words.top + words.bottom) / 2 + 1];
      const near = Math.min(...turn.map((a) => Math.hypot(l.x.px(1 + Math.sin(a)) - cx, l.y.px(force * Math.cos(a)) - cy)));
      expect(near).toBeLessThan(2);
    }
  });

  it("writes the words of a rule on the side where they have room", () => {
    const rules = [0.2, 1.95].map((x) => ({ x, text: "coil solid", ink: "stop" as const }));
    const l = layoutOf(plot([line("up", 1000)], { rules }), 700, 340, all);
    expect(l.rules.map((r) => r.leftward)).toEqual([false, true]);
  });

  it("rings the points of a line that shows them", () => {
    const spec = plot([sampleLine("peaks", [0, 1, 2], [0, 100, 300], { markers: true }), line("up", 500)]);
    const { rings, x } = layoutOf(spec, 700, 340, all);
    expect(rings).toHaveLength(3);
    expect(rings[1]!.x).toBeCloseTo(x.px(1), 6);
  });

  it("survives no data at all", () => {
    const l = layoutOf(plot([]), 800, 320, all);
    expect(l.lines).toEqual([]);
    expect(Number.isFinite(l.x.px(0.5))).toBe(true);
  });

  it("breaks a long name where that makes it least wide", () => {
    expect(linesOf("compression, 12 clicks", 80)).toEqual(["compression,", "12 clicks"]);
    expect(linesOf("all", 80)).toEqual(["all"]);
  });
});
