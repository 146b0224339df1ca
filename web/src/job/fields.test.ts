import { describe, expect, it } from "vitest";
import type { SchemaKey } from "../api/model";
import { hasAny, listLength, pathInWords, Schema, stepsOf, wordsOf } from "./fields";

const key = (path: string, value: SchemaKey["value"] = "quantity", station: SchemaKey["station"] = "hardware"): SchemaKey => ({
  path, value, station, parts: "", unit: "length", words: [], required: false, doc: "", example: "", accepts: "", bounds: "",
});

describe("a path of the job file", () => {
  it("is said in words", () => {
    expect(pathInWords("unit[0].piston_valve.bleed[1].half_angle")).toBe("piston valve, bleed 2, half angle");
    expect(pathInWords("rider.mass")).toBe("rider, mass");
    expect(wordsOf("half_angle")).toBe("Half angle");
  });

  it("is taken into its steps", () => {
    expect(stepsOf("unit[1].foot_valve.rebound.stack[2]")).toEqual([
      { key: "unit", index: 1 },
      { key: "foot_valve", index: undefined },
      { key: "rebound", index: undefined },
      { key: "stack", index: 2 },
    ]);
  });
});

describe("the schema", () => {
  const schema = new Schema([key("title"), key("unit[].piston"), key("unit[].piston_valve", "table"), key("unit[].piston_valve.bleed[].seat")]);

  it("finds a key behind its indices", () => {
    expect(schema.at("unit[1].piston_valve.bleed[0].seat")?.value).toBe("quantity");
    expect(schema.at("unit[1].nothing")).toBeUndefined();
  });

  it("places a key at its station, an element with its list, and what it has not with the table around it", () => {
    const placed = new Schema([key("unit", "tables"), key("unit[].piston_valve", "table", "valving"), key("unit[].piston_valve.bleed", "tables", "valving"), key("unit[].fill", "table", "build")]);
    expect(placed.stationOf("unit[0].piston_valve.bleed[1]")).toBe("valving");
    expect(placed.stationOf("unit[1].fill.unheard_of")).toBe("build");
    expect(placed.stationOf("unit[0].slip")).toBe("hardware");
    expect(placed.stationOf("slip")).toBe("hardware");
  });

  it("lists the keys of one table and not those below it", () => {
    expect(schema.keysIn("unit[0]").map((one) => one.path)).toEqual(["unit[].piston", "unit[].piston_valve"]);
    expect(schema.keysIn("").map((one) => one.path)).toEqual(["title"]);
  });
});

describe("values of a file", () => {
  const values = { "unit[0].stack[0]": "a", "unit[0].stack[1].bore": "b", "unit[0].stacked": "c" };
  it("tell how long a list is, and what is stated", () => {
    expect(listLength(values, "unit[0].stack")).toBe(2);
    expect(hasAny(values, "unit[0].stack")).toBe(true);
    expect(hasAny(values, "unit[0].sta")).toBe(false);
  });
});
