import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { StackEntry } from "./entries";
import { wordsOf } from "./foreseen";
import { Pending } from "./pending.svelte";

const listOf = (...texts: string[]): StackEntry[] => texts.map((text, i) => ({ path: `s[${i}]`, text }));
const start = listOf("a", "b");
let settled: [number | null, string][];
let pending: Pending;
const set = (index: number, typed: string, atOnce = false): void =>
  pending.take(start, "s", [{ set: `s[${index}]`, typed }], index, `${typed} put in`, atOnce);
const shown = (): string[] | null => pending.shown && pending.shown.entries.map((entry) => entry.text);

beforeEach(() => {
  vi.useFakeTimers();
  settled = [];
  pending = new Pending((select, said) => settled.push([select, said]));
});
afterEach(() => {
  vi.useRealTimers();
});

it("an answer that comes in time is drawn as it comes: nothing goes ahead of it", () => {
  set(1, "c");
  vi.advanceTimersByTime(50);
  expect(shown()).toBeNull();
  pending.answered(wordsOf(listOf("a", "c")));
  expect(settled).toEqual([[1, "c put in"]]);
  expect(pending.last).toBeUndefined();
  vi.advanceTimersByTime(5000);
  expect(shown()).toBeNull();
});

it("the list goes ahead when the eye would wait, and what is typed goes ahead at once", () => {
  set(0, "c");
  vi.advanceTimersByTime(70);
  expect(shown()).toEqual(["c", "b"]);
  pending.answered(wordsOf(listOf("c", "b")));
  expect(shown()).toBeNull();
  set(1, "d", true);
  expect(shown()).toEqual(["a", "d"]);
});

it("a step goes on from the one before, and an answer ends all steps up to its own", () => {
  set(0, "c");
  set(1, "d");
  set(0, "e");
  expect(pending.last?.entries.map((entry) => entry.text)).toEqual(["e", "d"]);
  pending.answered(wordsOf(listOf("c", "d")));
  expect(settled).toEqual([[1, "d put in"]]);
  expect(pending.last?.said).toBe("e put in");
  pending.answered(wordsOf(listOf("e", "d")));
  expect(pending.last).toBeUndefined();
});

it("an answer that was not foreseen ends them all: another hand was at work too", () => {
  set(0, "c", true);
  pending.answered(wordsOf(listOf("x", "y", "z")));
  expect(shown()).toBeNull();
  expect(pending.last).toBeUndefined();
  expect(settled).toEqual([[0, "c put in"]]);
});

it("without an answer what is written counts again", () => {
  set(0, "c");
  vi.advanceTimersByTime(2000);
  expect(shown()).toBeNull();
  expect(settled).toEqual([[0, "c put in"]]);
});

it("a hand that goes on to another entry keeps it when the answer comes", () => {
  set(0, "c", true);
  pending.choose(1);
  expect(pending.shown?.select).toBe(1);
  pending.answered(wordsOf(listOf("c", "b")));
  expect(settled).toEqual([[1, "c put in"]]);
});
