import { describe, expect, it } from "vitest";
import { sampleLine, samplePlot } from "../../charts/sample_plot";
import { withLoops } from "./loops";

describe("the loops of all runs", () => {
  it("are drawn as the hand puts them in and out; other lines stay", () => {
    const loop = (key: string, spare: boolean) => sampleLine(key, [0, 1, 0], [0, 1, 0], { loop: true, spare });
    const plot = samplePlot([loop("slow", false), loop("middle", true), sampleLine("springs", [0, 1], [0, 1])]);
    expect(withLoops(plot, ["middle"]).lines.map((line) => [line.key, line.spare])).toEqual([
      ["slow", true],
      ["middle", false],
      ["springs", false],
    ]);
  });
});
