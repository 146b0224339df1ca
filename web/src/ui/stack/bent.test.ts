import { describe, expect, it } from "vitest";
import { bentPaths, discAt, heightAt, isOf, levelOf, LEVELS } from "./bent";
import type { DiscView, StackGeometry, StackView } from "../../api/model";
import { heightFor, ROW, rowsOf, sectionOf, topOf } from "./section";

// three discs on a plain seat: two of 24 mm, one of 18 mm, each 0.2 mm
const geometry: StackGeometry = {
  discs: [24, 24, 18].map((od, i) => ({
    number: i + 1,
    group: i < 2 ? 0 : 1,
    label: `${od} x 0.20 mm`,
    outer_radius: od * 0.5e-3,
    bore_radius: 3e-3,
    thickness: 0.2e-3,
    height: i * 0.2e-3,
    ring: false,
    carries: true,
  })),
  groups: [
    { count: 2, first: 1, label: "2 x 24 x 0.20 mm" },
    { count: 1, first: 3, label: "18 x 0.20 mm" },
  ],
  height: 0.6e-3,
  clamp_radius: 6e-3,
  boss_radius: 6e-3,
  bore_radius: 3e-3,
  seat_radius: 11e-3,
  seat_height: 0,
  pocket_inner_radius: 7e-3,
  pocket_outer_radius: 10.5e-3,
  pocket_arc: 0.8,
  land_outer_radius: 11e-3,
  seat_supports: true,
  float_travel: 0,
};
const radius = [6e-3, 9e-3, 12e-3];
const view = {
  pressure: 5e5,
  lift_at_seat: 0.2e-3,
  lift_at_rim: 0.3e-3,
  discs: geometry.discs.map((d) => ({
    number: d.number,
    radius: radius.filter((r) => r <= Math.max(d.outer_radius, 9e-3)),
    height: radius.filter((r) => r <= Math.max(d.outer_radius, 9e-3)).map((r) => d.height + (r - 6e-3) * 0.05),
    thickness: d.thickness,
    stress: radius.filter((r) => r <= Math.max(d.outer_radius, 9e-3)).map((r) => 6e8 - (r - 6e-3) * 1e11),
    highest_stress: 6e8,
    carries: true,
  })) as DiscView[],
  contacts: [
    { lower: 2, upper: 3, radius: 9e-3, force: 100 },
    { lower: 1, upper: 2, radius: 9e-3, force: 0.5 },
  ],
  stack_flow: 1e-4,
} as StackView;
const section = sectionOf(geometry, 400, 400, 0.3e-3);

describe("the section", () => {
  it("is to scale in radius and says by how much it exaggerates thickness", () => {
    expect(section.x(12e-3) - section.x(6e-3)).toBeCloseTo(6e-3 * section.radial, 6);
    expect(section.axial / section.radial).toBeCloseTo(section.factor, 9);
    expect(section.factor).toBeGreaterThan(1);
  });

  it("keeps the bent pile inside the drawing", () => {
    for (const width of [190, 400, 700])
      for (const lift of [0, 0.3e-3, 1e-3]) {
        const s = sectionOf(geometry, width, 340, lift);
        expect(s.y(topOf(geometry) + lift)).toBeGreaterThan(0);
        expect(s.height).toBeLessThanOrEqual(340);
      }
  });

  it("gives each row its 44 pixels in the order of the stack", () => {
    const height = heightFor(6);
    const s = sectionOf(geometry, 300, height, 0, height);
    const rows = rowsOf(geometry, s, 6, [0, 1, null, null, null, null], height);
    for (let i = 1; i < rows.length; ++i) expect(rows[i - 1]! - rows[i]!).toBeGreaterThanOrEqual(ROW - 1e-9);
    expect(Math.min(...rows)).toBeGreaterThanOrEqual(-1e-9);
  });
});

describe("the bent stack", () => {
  it("draws each disc once, over its flat ghost", () => {
    const paths = bentPaths(geometry, view, section, 6e8, 1e-4);
    expect(paths.outline.match(/M/g)).toHaveLength(3);
    expect(paths.ghost.match(/M/g)).toHaveLength(3);
    expect(bentPaths(geometry, null, section, 6e8, 1e-4).ghost).toBe("");
  });

  it("covers each disc with pieces of some level, and no more", () => {
    const paths = bentPaths(geometry, view, section, 6e8, 1e-4);
    expect(paths.levels).toHaveLength(LEVELS);
    expect(paths.levels.join("")).not.toBe("");
    expect(levelOf(6e8, 6e8)).toBe(LEVELS - 1);
    expect(levelOf(1e8, 6e8)).toBe(0);
    expect(levelOf(1e9, 6e8)).toBe(LEVELS - 1);
  });

  it("ticks only the contacts that carry", () => {
    expect(bentPaths(geometry, view, section, 6e8, 1e-4).contacts.match(/M/g)).toHaveLength(1);
  });

  it("draws the flow as wide as it is, and none when closed", () => {
    const full = bentPaths(geometry, view, section, 6e8, 1e-4).flow!;
    const half = bentPaths(geometry, { ...view, stack_flow: 0.5e-4 }, section, 6e8, 1e-4).flow!;
    expect(half.width / full.width).toBeCloseTo(0.5, 1);
    expect(bentPaths(geometry, { ...view, stack_flow: 0 }, section, 6e8, 1e-4).flow).toBeNull();
  });

  it("measures the lift at the seat, between the computed places", () => {
    expect(heightAt(geometry.discs[0]!, view.discs[0], 7.5e-3)).toBeCloseTo(7.5e-5, 9);
    const lift = bentPaths(geometry, view, section, 6e8, 1e-4).lift!;
    expect(lift.foot - lift.top).toBeCloseTo(section.axial * 0.25e-3, 6);
  });

  it("knows a view of the stack before the last change", () => {
    const whole = { ...view, discs: geometry.discs.map((d, i) => ({ ...view.discs[i]!, radius: [6e-3, d.outer_radius] })) };
    expect(isOf(whole, geometry)).toBe(true);
    const other = { ...geometry, discs: geometry.discs.map((d) => ({ ...d, outer_radius: d.outer_radius + 0.5e-3 })) };
    expect(isOf(whole, other)).toBe(false);
    expect(isOf(whole, { ...geometry, discs: geometry.discs.slice(1) })).toBe(false);
  });

  it("tells which disc a finger is on, also a little beside it", () => {
    const y = section.y(geometry.discs[1]!.height + 0.1e-3);
    expect(discAt(geometry, null, section, section.x(8e-3), y, 10)).toBe(2);
    expect(discAt(geometry, null, section, section.x(11.5e-3), section.y(0.45e-3), 60)).toBe(2);
    expect(discAt(geometry, null, section, 390, 5, 10)).toBe(0);
  });
});
