import { expect, it } from "vitest";
import { toldOnce } from "./told_once";

it("what comes again is told once, with how often and where it came first", () => {
  const events = [
    { what: "the oil lock is entered", travel: 0.27 },
    { what: "the oil lock is left", travel: 0.28 },
    { what: "the oil lock is entered", travel: 0.271 },
  ];
  expect(toldOnce(events)).toEqual([
    { what: "the oil lock is entered", travel: 0.27, times: 2 },
    { what: "the oil lock is left", travel: 0.28, times: 1 },
  ]);
  expect(toldOnce([])).toEqual([]);
});
