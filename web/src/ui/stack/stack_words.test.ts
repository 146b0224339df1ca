import { describe, expect, it } from "vitest";
import type { StackResult, StackView } from "../../api/model";
import { measures as measuresIn } from "../../units/measures";
import { liftWords, loadWords, remarkOf, worstDisc } from "./stack_words";

const measures = measuresIn("metric");
const plain = (text: string): string => text.replace(/\u2009/g, " ");
const stack = {
  worst_disc: 1,
  geometry: {
    groups: [{ count: 2, first: 1 }, { count: 1, first: 3 }],
    discs: [{ carries: true }, { carries: true }, { carries: false, ring: true }],
  },
} as StackResult;
const view = {
  pressure: 5e5,
  lift_at_seat: 0.2e-3,
  lift_at_rim: 0.3e-3,
  discs: [3e8, 2e8, 6e8].map((highest_stress, i) => ({ number: i + 1, highest_stress })),
  outcome: { status: "converged", note: "" },
} as StackView;

describe("the stack in words", () => {
  it("says the load and the lift, at rest and closed too", () => {
    expect(loadWords(null, measures)).toBe("At rest.");
    expect(plain(loadWords(view, measures))).toBe("At 5.00 bar: lift 0.20 mm at the seat, 0.30 mm at the rim.");
    expect(plain(liftWords(view, measures))).toBe("lift 0.20 mm");
    expect(liftWords({ ...view, lift_at_seat: -1e-12 }, measures)).toBe("closed");
    expect(liftWords(null, measures)).toBe("");
  });

  it("says where the oil goes when it goes anywhere, and what the solver could not do", () => {
    expect(loadWords({ ...view, stack_flow: 0, bleed_flow: 0 }, measures)).not.toMatch(/bleeds/);
    expect(loadWords({ ...view, stack_flow: 1e-4 }, measures)).toMatch(/^At .* Flow through the stack .*, through bleeds/);
    const stalled = { status: "stalled", note: "" } as StackView["outcome"];
    expect(loadWords({ ...view, outcome: stalled }, measures)).toMatch(/The solver ended with "stalled"\.$/);
  });

  it("names the disc with the highest stress, under load that of the load", () => {
    expect(worstDisc(stack, null)).toBe(1);
    expect(worstDisc(stack, view)).toBe(3);
    expect(remarkOf(stack, 0, null, measures, false)).toBe("highest stress");
    expect(plain(remarkOf(stack, 1, view, measures, false))).toBe("highest stress 600 MPa, no load");
    expect(plain(remarkOf(stack, 1, view, measures, true))).toBe("highest 600 MPa, no load");
    expect(remarkOf(stack, 0, view, measures, false)).toBe("");
  });
});
