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

describe("the outbox", () => {
  it("keeps only the newest value for a path that waits", () => {
    const box = new Outbox(shelf(), "job");
    box.add([set("seat", "1")], "seat");
    box.add([set("seat", "18 mm")], "seat");
    expect(box.next(4)?.edits).toEqual([set("seat", "18 mm")]);
  });

  it("does not touch what is on its way", () => {
    const box = new Outbox(shelf(), "job");
    box.add([set("seat", "1")], "seat");
    const sent = box.next(4);
    box.add([set("seat", "18 mm")], "seat");
    expect(sent?.edits).toEqual([set("seat", "1")]);
    box.delivered();
    expect(box.next(5)?.edits).toEqual([set("seat", "18 mm")]);
  });

  it("keeps the order of parts moved and values typed", () => {
    const box = new Outbox(shelf(), "job");
    box.add([set("seat", "1")], "seat");
    box.add([insert], "shims added");
    box.add([set("seat", "2")], "seat");
    const order: unknown[] = [];
    for (let parcel = box.next(1); parcel; parcel = box.next(1)) {
      order.push(parcel.edits[0]);
      box.delivered();
    }
    expect(order).toEqual([set("seat", "1"), insert, set("seat", "2")]);
  });

  it("is there again after the page was closed", () => {
    const kept = shelf();
    new Outbox(kept, "job").add([set("seat", "18 mm")], "seat");
    const again = new Outbox(kept, "job");
    expect(again.typed("seat")).toBe("18 mm");
    again.next(1);
    again.delivered();
    expect(kept.size).toBe(0);
  });

  it("sends a value again after a silence, and adds a shim once", () => {
    const box = new Outbox(shelf(), "job");
    box.add([set("seat", "18 mm")], "seat");
    box.next(4);
    box.settle({ serial: 5, undo_note: "seat" });
    expect(box.empty).toBe(false);

    const shims = new Outbox(shelf(), "other");
    shims.add([insert], "shims added");
    shims.next(4);
    shims.settle({ serial: 5, undo_note: "shims added" });
    expect(shims.empty).toBe(true);
  });

  it("adds a shim again that the server never had", () => {
    const box = new Outbox(shelf(), "job");
    box.add([insert], "shims added");
    box.next(4);
    box.settle({ serial: 4, undo_note: "seat" });
    expect(box.next(4)?.edits).toEqual([insert]);
  });

  it("begins empty beside text that it did not write", () => {
    const kept = shelf();
    kept.setItem("job", "{not ours");
    expect(new Outbox(kept, "job").empty).toBe(true);
  });
});
