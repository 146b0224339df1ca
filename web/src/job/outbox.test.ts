import { describe, expect, it } from "vitest";
import { Outbox, type Shelf } from "./outbox";

function shelf(): Shelf & Map<string, string> {
  const map = new Map<string, string>() as Shelf & Map<string, string>;
  map.getItem = (key) => map.get(key) ?? null;
  map.setItem = (key, value) => void map.set(key, value);
  map.removeItem = (key) => void map.delete(key);
  return map;
}
const set = (path: string, typed: string) => ({ set: path, typed });
const insert = { insert: "stack.discs[0]", typed: "3 x 24 x 0.15 mm" };

let n = 0;
const box = (on: Shelf = shelf(), key = "job"): Outbox => new Outbox(on, key, () => `tab.${++n}`);

/** Sends all, and tells what went. */
function sent(from: Outbox): unknown[] {
  const all: unknown[] = [];
  for (let parcel = from.next(); parcel; parcel = from.next()) {
    from.sending(parcel);
    all.push(parcel.edits[0]);
    from.delivered(parcel);
  }
  return all;
}

describe("the outbox", () => {
  it("keeps only the newest value for a path that waits", () => {
    const out = box();
    out.add([set("seat", "1")], "seat");
    out.add([set("seat", "18 mm")], "seat");
    expect(sent(out)).toEqual([set("seat", "18 mm")]);
  });

  it("does not touch what is on its way", () => {
    const out = box();
    out.add([set("seat", "1")], "seat");
    const first = out.next()!;
    out.sending(first);
    out.add([set("seat", "18 mm")], "seat");
    expect(first.edits).toEqual([set("seat", "1")]);
    out.delivered(first);
    expect(sent(out)).toEqual([set("seat", "18 mm")]);
  });

  it("keeps the order of parts moved and values typed", () => {
    const out = box();
    out.add([set("seat", "1")], "seat");
    out.add([insert], "shims added");
    out.add([set("seat", "2")], "seat");
    expect(sent(out)).toEqual([set("seat", "1"), insert, set("seat", "2")]);
  });

  it("lies on the shelf, says there what went off, and leaves nothing behind", () => {
    const kept = shelf();
    const out = box(kept);
    out.add([insert], "shims added");
    const parcel = out.next()!;
    out.sending(parcel);
    expect(JSON.parse(kept.get("job") ?? "")).toEqual([{ id: parcel.id, edits: [insert], note: "shims added", sent: true }]);
    out.delivered(parcel);
    expect(kept.size).toBe(0);
  });

  it("takes over what a closed page has left, under the names it had, before its own", () => {
    const kept = shelf();
    const closed = box(kept, "job.closed");
    closed.add([insert], "shims added");
    const parcel = closed.next()!;
    closed.sending(parcel);
    const out = box(kept, "job.open");
    out.add([set("seat", "18 mm")], "seat");
    out.inherit(kept.get("job.closed") ?? "");
    expect(out.next()).toEqual({ ...parcel, sent: true });
    expect(out.typed("seat")).toBe("18 mm");
    expect(sent(out)).toEqual([insert, set("seat", "18 mm")]);
  });

  it("goes on without a shelf, and says that what waits would not outlive the page", () => {
    const full = shelf();
    full.setItem = () => {
      throw new Error("no room");
    };
    const out = box(full);
    out.add([insert], "shims added");
    expect(out.shelved).toBe(false);
    expect(sent(out)).toEqual([insert]);
    expect(out.shelved).toBe(true);
  });

  it("finds nothing in text that it did not write", () => {
    const out = box();
    for (const text of ["{not ours", "7", "[7, {}]", "null"]) out.inherit(text);
    expect(out.empty).toBe(true);
  });
});
