import { describe, expect, it } from "vitest";
import type { KeyFigure, KeyFigures, ResultDocument } from "../api/model";
import { byKey, figuresOf } from "./figures";

const figure = (key: string): KeyFigure => ({ key }) as KeyFigure;
const leg: KeyFigures = {
  forces: [{ speed: 0.5, compression: figure("compression at 0.5"), rebound: figure("rebound at 0.5") }],
  margins: [figure("worst shim")],
};
const lone: KeyFigures = { forces: [], margins: [figure("lift 0")] };

describe("the figures that stay in view", () => {
  it("are those of the unit, or of the lone stack of a file without units", () => {
    expect(figuresOf({ units: [{ key_figures: leg }], key_figures: lone } as ResultDocument, 0)).toBe(leg);
    expect(figuresOf({ units: [] as ResultDocument["units"], key_figures: lone } as ResultDocument, 0)).toBe(lone);
  });

  it("are none before there is a result, or where nothing was judged", () => {
    expect(figuresOf(undefined, 0).margins).toEqual([]);
    expect(figuresOf({ units: [{}], key_figures: lone } as ResultDocument, 0).margins).toEqual([]);
  });

  it("are found by their keys, forces too", () => {
    expect([...byKey(leg).keys()]).toEqual(["compression at 0.5", "rebound at 0.5", "worst shim"]);
  });
});
