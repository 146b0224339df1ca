import { describe, expect, it } from "vitest";
import type { StackGeometry } from "../../api/model";
import { drawnGroups, groupsOf } from "./entry_groups";

describe("entries and what is drawn", () => {
  const match = (entries: string, groups: string, fresh = false): (number | null)[] =>
    groupsOf(entries.length, groups.length, fresh, (i, k) => entries[i] === groups[k]);

  it("run side by side in a fresh drawing, whatever their texts say", () => {
    expect(match("abx", "abc", true)).toEqual([0, 1, 2]);
  });

  it("find each other in an older drawing by what they are", () => {
    expect(match("abcd", "acd")).toEqual([0, null, 1, 2]);
    expect(match("acd", "abcd")).toEqual([0, 2, 3]);
    expect(match("bca", "abc")).toEqual([1, 2, null]);
    expect(match("", "abc")).toEqual([]);
  });

  it("keep a single changed entry at its place between its neighbours", () => {
    expect(match("axc", "abc")).toEqual([0, 1, 2]);
    expect(match("xbc", "abc")).toEqual([0, 1, 2]);
    expect(match("abx", "abc")).toEqual([0, 1, 2]);
  });

  it("are the same shim when count, diameter and thickness are, whether typed as lengths or by a part's name", () => {
    const disc = (outer_radius: number, thickness: number) => ({ outer_radius, thickness });
    const geometry = {
      groups: [{ count: 2, first: 1 }, { count: 1, first: 3 }],
      discs: [disc(0.012, 0.15e-3), disc(0.012, 0.15e-3), disc(0.01, 0.2e-3)],
    } as StackGeometry;
    const part = { name: "face", label: "", outer_diameter: 0.02, thickness: 0.2e-3, bore: 0 };
    const drawn = (...texts: string[]): (number | null)[] =>
      drawnGroups(texts.map((text, i) => ({ path: `s[${i}]`, text })), geometry, [part], false);
    expect(drawn("2 x 24 x 0.15 mm", "1 x shim face")).toEqual([0, 1]);
    expect(drawn("1 x shim face", "3 x 24 x 0.15 mm")).toEqual([1, null]);
  });
});
