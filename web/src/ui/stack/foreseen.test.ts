import { describe, expect, it } from "vitest";
import type { Draft } from "../../api/model";
import { entriesOf, type StackEntry } from "./entries";
import { foreseen, wordsOf } from "./foreseen";

const texts = ["4 x 21 x 0.10 mm", "1 x 16 x 0.10 mm", "1 x 18 x 0.15 mm"];
const entries: StackEntry[] = texts.map((text, i) => ({ path: `s[${i}]`, text }));
const after = (edits: Parameters<typeof foreseen>[2], from = entries): string[] => foreseen(from, "s", edits).map((e) => e.text);

describe("what will be when an edit has been taken", () => {
  it("is the same list with that edit done, its paths in order", () => {
    expect(after([{ set: "s[1]", typed: "2 x 16 x 0.10 mm" }])).toEqual([texts[0], "2 x 16 x 0.10 mm", texts[2]]);
    expect(after([{ remove: "s[0]" }])).toEqual(texts.slice(1));
    expect(after([{ insert: "s[3]", typed: "new" }])).toEqual([...texts, "new"]);
    expect(after([{ insert: "s[0]", typed: "new" }])).toEqual(["new", ...texts]);
    expect(after([{ move: "s[0]", to: 2 }])).toEqual([texts[1], texts[2], texts[0]]);
    expect(after([{ move: "s[2]", to: 0 }])).toEqual([texts[2], texts[0], texts[1]]);
    expect(foreseen(entries, "s", [{ remove: "s[0]" }]).map((e) => e.path)).toEqual(["s[0]", "s[1]"]);
  });

  it("follows one edit after another, as a hand that does not wait types them", () => {
    let now: StackEntry[] = entries;
    for (let k = 0; k < 2; ++k) now = foreseen(now, "s", [{ insert: "s[1]", typed: texts[0]! }]);
    expect(now.map((e) => e.text)).toEqual([texts[0], texts[0], texts[0], texts[1], texts[2]]);
    for (let k = 0; k < 2; ++k) now = foreseen(now, "s", [{ remove: "s[1]" }]);
    expect(now.map((e) => e.text)).toEqual(texts);
  });

  it("does not count what is not in the file yet", () => {
    const newcomer: StackEntry = { path: "s[1]", text: "2 x", insert: true, draft: { typed: "2 x", what: "", remedy: "" } };
    const mixed = [entries[0]!, newcomer, ...entries.slice(1)];
    expect(after([{ drop: "s[1]" }], mixed)).toEqual(texts);
    expect(after([{ insert: "s[1]", typed: "2 x 20 x 0.1 mm" }], mixed)).toEqual([texts[0], "2 x 20 x 0.1 mm", texts[1], texts[2]]);
    expect(after([{ remove: "s[1]" }], mixed)).toEqual([texts[0], "2 x", texts[2]]);
    expect(after([{ move: "s[2]", to: 0 }], mixed)).toEqual([texts[2], texts[0], "2 x", texts[1]]);
  });

  it("knows the entries in table form, and a list that was one text", () => {
    const table: StackEntry[] = [{ path: "s[0]", text: "1 x a", fields: { count: "1", outer_diameter: "23 mm" } }];
    expect(foreseen(table, "s", [{ set: "s[0].count", typed: "2" }])[0]!.fields).toEqual({ count: "2", outer_diameter: "23 mm" });
    expect(after([{ set: "s", typed: '["a", "b"]' }], [{ path: "s", text: "a" }])).toEqual(["a", "b"]);
  });

  it("agrees with what the server then says, whether it could read it or not", () => {
    const said = entriesOf(
      { "s[0]": texts[0]!, "s[1]": texts[1]!, "s[2]": texts[2]! },
      [{ path: "s[1]", typed: "potato", diagnostic: { what: "no shim", remedy: "" } } as Draft],
      "s",
    );
    expect(wordsOf(foreseen(entries, "s", [{ set: "s[1]", typed: "potato" }]))).toBe(wordsOf(said));
    expect(wordsOf(said)).not.toBe(wordsOf(entries));
  });
});
