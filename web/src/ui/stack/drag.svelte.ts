import type { StackResult } from "../../api/model";
import { ROW } from "./section";
import { type Bench, moveTo, removeEntry, type Step } from "./steps";

export interface Point {
  readonly x: number; // from the left of the picture [px]
  readonly y: number; // from its top [px]
}

/** Where the rows of the picture lie, lowest entry first. */
export interface Rows {
  readonly width: number; // [px]
  readonly height: number; // [px]
  readonly tops: readonly number[]; // [px]
}

/** An entry that a hand has hold of. */
export interface Held {
  readonly index: number;
  readonly pointer: number;
  readonly from: Point;
  readonly by: Point; // how far it has come
  readonly to: number | null; // where it would lie; null: taken out
  readonly on: boolean; // it was moved, not only touched
  readonly stack: StackResult | undefined; // as it lay when the hand took hold
}

const START = 6; // a hand moves this much without meaning to [px]
const OUT = 36; // past the picture's edge by this much takes the entry out [px]

/** An entry dragged through the picture: to another place in the pile, or out of it. */
export class Drag {
  held = $state.raw<Held | null>(null);

  /** It moves: a touch alone is no drag. */
  get on(): boolean {
    return this.held?.on ?? false;
  }

  take(index: number, pointer: number, from: Point, stack: StackResult | undefined): void {
    this.held = { index, pointer, from, by: { x: 0, y: 0 }, to: index, on: false, stack };
  }

  /** True when the entry would now come to lie elsewhere than a moment ago. */
  move(pointer: number, at: Point, rows: Rows): boolean {
    const held = this.held;
    if (!held || held.pointer !== pointer) return false;
    const by = { x: at.x - held.from.x, y: at.y - held.from.y };
    if (!held.on && Math.hypot(by.x, by.y) <= START) return false;
    const to = placeAt(held.index, at, rows);
    this.held = { ...held, by, to, on: true };
    return to !== held.to || !held.on;
  }

  /** The hand lets go. Null: it held nothing, or did not move it. */
  drop(pointer: number): Held | null {
    const held = this.held;
    if (!held || held.pointer !== pointer) return null;
    this.held = null;
    return held.on ? held : null;
  }

  /** It is over without a drop. True when something had been moved. */
  cancel(): boolean {
    const was = this.on;
    this.held = null;
    return was;
  }
}

/** Rows run from the seat up: the more rows lie below the finger, the higher the entry goes. Null: out of the picture. */
function placeAt(index: number, { x, y }: Point, { width, height, tops }: Rows): number | null {
  if (x < -OUT || x > width + OUT || y < -OUT || y > height + OUT) return null;
  return Math.min(tops.length - 1, tops.filter((top, i) => i !== index && top + ROW / 2 > y).length);
}

/** What letting go here would do. */
export function stepOf(bench: Bench, held: Held): Step {
  return held.to === null ? removeEntry(bench, held.index) : moveTo(bench, held.index, held.to);
}

/** The entry that the gap for the dragged one lies above: -1 for the seat; null where there is no gap. */
export function belowGap(held: Held | null): number | null {
  if (!held?.on || held.to === null || held.to === held.index) return null;
  return held.to > held.index ? held.to : held.to - 1;
}
