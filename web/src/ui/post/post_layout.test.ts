import { describe, expect, it } from "vitest";
import { textWidth } from "../../charts/text_width";
import { measures as measuresIn } from "../../units/measures";
import type { LedgerLine, PostResult } from "../../api/model";
import { pieceName, postLayout } from "./post_layout";

const measures = measuresIn("metric");
let z = 0;
const piece = (name: string, shape: LedgerLine["shape"], mm: number, od: number, count = 1): LedgerLine => {
  const line: LedgerLine = { name, part: "piece", shape, count, height: mm * 1e-3, tolerance: 0, measured: false, typed: `${mm} mm`, from: z, to: z + mm * 1e-3, outer_radius: od * 0.5e-3 };
  z = line.to;
  return line;
};
const post = {
  name: "fork leg, piston valve",
  ledger: [
    piece("stop washer", "washer", 2, 10),
    piece("compression stack", "disc", 0.95, 21),
    piece("piston", "piston", 12, 24),
    piece("rebound stack", "disc", 0.9, 20),
    piece("clamp washer", "washer", 1.5, 10),
    piece("6x0.3", "spacer", 0.6, 10, 2),
    piece("nut", "nut", 5, 10),
  ],
  bore_radius: 1.25e-3,
  major_radius: 3e-3,
  thread: {
    designation: "M6 x 0.75",
    pitch: 0.75e-3,
    post_length: 25.5e-3,
    thread_start: 17.3e-3,
    stack_height: 17.95e-3,
    stack_tolerance: 0,
    nut_height: 5e-3,
    engaged_turns: 6.3,
    nut_turns: 6.3,
    least_turns: 6.3,
    protrusion: 2.55e-3,
    unthreaded_gap: 0,
  },
  spacers: [],
  spacer_advice: "",
  fits: true,
  flags: [],
} as unknown as PostResult;

describe("the post on the page", () => {
  it("lays the pieces one behind the other, to scale along the axis", () => {
    const l = postLayout(post, 700, measures);
    l.pieces.forEach((p, k) => {
      expect((p.right - p.left) / l.along).toBeCloseTo(post.ledger[k]!.height, 9);
      if (k) expect(p.left).toBeCloseTo(l.pieces[k - 1]!.right, 6);
    });
    expect(l.end).toBeLessThanOrEqual(700);
  });

  it("writes each name once, inside the drawing, on no other's row and across no leader", () => {
    for (const width of [328, 700, 1300]) {
      const l = postLayout(post, width, measures);
      const rows = l.pieces.map((p) => p.nameY);
      expect(new Set(rows).size).toBe(rows.length);
      for (const p of l.pieces) {
        const [a, b] = [p.nameX, p.nameX + textWidth(p.name)];
        expect(a).toBeGreaterThanOrEqual(0);
        expect(b).toBeLessThanOrEqual(width);
        for (const other of l.pieces) {
          const leader = (other.left + other.right) / 2;
          // a leader runs down from its own row
          if (other !== p && other.nameY < p.nameY) expect(leader > a && leader < b).toBe(false);
        }
      }
    }
  });

  it("draws every full turn of the thread, and the piece that the nut holds", () => {
    const l = postLayout(post, 700, measures);
    expect(l.thread!.turns.match(/L/g)).toHaveLength(2 * Math.floor(8.2 / 0.75));
    expect((l.held!.right - l.held!.left) / l.along).toBeCloseTo(5e-3, 6);
  });

  it("needs no thread, no nut and no radius", () => {
    const { thread: _, ...rest } = post;
    const bare = { ...rest, bore_radius: 0, ledger: [{ ...post.ledger[0]!, outer_radius: 0 }] };
    const l = postLayout(bare, 400, measures);
    expect(l.thread).toBeNull();
    expect(l.dimensions).toEqual([]);
    expect(l.pieces[0]!.top).toBeLessThan(l.axis);
  });

  it("names a pile by its count and says what was measured", () => {
    expect(pieceName(post.ledger[5]!, measures)).toBe("2 × 6x0.3, 0.60\u2009mm");
    expect(pieceName({ ...post.ledger[2]!, measured: true }, measures)).toBe("piston, 12.00\u2009mm measured");
    expect(pieceName({ ...post.ledger[2]!, height: 0 }, measures)).toBe("piston");
  });
});
