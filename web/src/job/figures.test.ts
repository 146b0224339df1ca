import { describe, expect, it } from "vitest";
import type { Finding, ResultDocument } from "../api/model";
import { byKey, figuresOf } from "./figures";

const finding = (code: string, severity: Finding["severity"], valve = "", stroke = ""): Finding => ({
  code, severity, title: "", numbers: [], rule: "", source: "", remedy: "",
  place: { unit: "leg", valve, stroke, path: "", file: "", line: 0 },
});

/** As much of a document as the figures read. */
function document(findings: Finding[], margin: number, turns: number): ResultDocument {
  const valve = (place: string, fatigue: number, engaged: number) => ({
    place,
    directions: [{ stroke: "compression", stack: { worst_disc: 2, fatigue_margin: fatigue } }],
    post: { thread: { engaged_turns: engaged, nut_turns: 7 } },
  });
  return {
    findings,
    units: [
      {
        name: "leg",
        valves: [valve("piston valve", 1.8, 7), valve("foot valve", 1.2, turns)],
        force: {
          key_forces: [{ speed: 0.5, compression: 100, rebound: 200, compression_cavitated: false, rebound_cavitated: true }],
          cavitation: [{ stroke: "compression", chamber: "rod chamber", margin_at_working_speed: margin }],
        },
      },
    ],
  } as unknown as ResultDocument;
}

describe("the figures that stay in view", () => {
  it("are the worst of all places, with the place said", () => {
    const map = byKey(figuresOf(document([], 5e5, 6.5), 0));
    expect(map.get("worst shim")).toMatchObject({ si: 1.2, where: "foot valve, compression, shim 2", verdict: "fine" });
    expect(map.get("engaged thread")).toMatchObject({ si: 6.5, where: "foot valve, of 7.00" });
  });

  it("take their verdict from the findings, not from a limit of the page's own", () => {
    const map = byKey(figuresOf(document([finding("F203", "look", "", "compression"), finding("F302", "stop")], -1e5, 7), 0));
    expect(map.get("cavitation compression")?.verdict).toBe("look");
    expect(map.get("worst shim")?.verdict).toBe("stop");
  });

  it("tell the stress where no strength is stated", () => {
    const lone = {
      findings: [],
      units: [],
      stack: { worst_disc: 3, points: [{ pressure: 2e5, lift_at_seat: 1e-5, highest_stress: 3e8, worst_disc: 3 }] },
    } as unknown as ResultDocument;
    expect(byKey(figuresOf(lone, 0)).get("worst shim")).toMatchObject({ kind: "stress", si: 3e8, where: "shim 3", pressure: 2e5 });
  });

  it("say which force is past cavitation", () => {
    const [row] = figuresOf(document([], 0, 7), 0).forces;
    expect(row?.forces.rebound.verdict).toBe("stop");
    expect(row?.forces.compression.verdict).toBe("fine");
  });

  it("are none without a result", () => {
    expect(figuresOf(undefined, 0)).toEqual({ forces: [], margins: [] });
  });
});
