import { describe, expect, it } from "vitest";
import type { SchemaKey } from "../api/model";
import { hasAny, listLength, pathInWords, Schema, wordsOf } from "./fields";
import { stationOf } from "./stations";

const key = (path: string, value: SchemaKey["value"] = "quantity"): SchemaKey => ({
  path, value, unit: "length", words: [], required: false, doc: "", example: "", accepts: "", bounds: "",
});

describe("a path of the job file", () => {
  it("is said in words", () => {
    expect(pathInWords("unit[0].piston_valve.bleed[1].half_angle")).toBe("piston valve, bleed 2, half angle");
    expect(pathInWords("rider.mass")).toBe("rider, mass");
    expect(wordsOf("half_angle")).toBe("Half angle");
  });

  it.each([
    ["rider.complaints[0]", "rider"],
    ["unit[0].travel", "hardware"],
    ["unit[0].piston_valve.rebound.seat", "hardware"],
    ["unit[0].piston_valve.rebound.stack[2]", "valving"],
    ["unit[0].foot_valve.bleed[0].clicks", "valving"],
    ["unit[0].foot_valve", "valving"],
    ["unit[0].foot_valve.compression", "valving"],
    ["unit[0].air_spring.positive.pressure", "springs"],
    ["unit[0].piston_valve.nut.torque", "fit"],
    ["unit[1].fill.space.bore", "build"],
  ])("%s is worked on at the station %s", (path, station) => {
    expect(stationOf(path)).toBe(station);
  });
});

describe("the schema", () => {
  const schema = new Schema([key("title"), key("unit[].piston"), key("unit[].piston_valve", "table"), key("unit[].piston_valve.bleed[].seat")]);

  it("finds a key behind its indices", () => {
    expect(schema.at("unit[1].piston_valve.bleed[0].seat")?.value).toBe("quantity");
    expect(schema.at("unit[1].nothing")).toBeUndefined();
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
