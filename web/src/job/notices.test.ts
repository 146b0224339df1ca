import { describe, expect, it } from "vitest";
import { noticesOf, type Standing, wordsOfRefusal } from "./notices";

const well: Standing = {
  connected: true,
  waiting: 0,
  waitingElsewhere: 0,
  hindrance: undefined,
  exposed: false,
  journal: "kept",
  diskChanged: false,
  diskMissing: false,
  partsChanged: false,
};
const told = (so: Partial<Standing>) => noticesOf({ ...well, ...so });
const words = (so: Partial<Standing>): string => told(so).map(({ title, rest }) => `${title} ${rest}`).join(" ");

describe("notices", () => {
  it("says nothing when all is well, nor while a value is on its way", () => {
    expect(told({})).toEqual([]);
    expect(told({ waiting: 1 })).toEqual([]);
  });

  it("says how much is not safe, and where it is until then", () => {
    expect(words({ connected: false })).toContain("What you type waits in this browser");
    expect(words({ connected: false, waiting: 1 })).toContain("One change is not safe yet: it waits in this browser and is sent by itself.");
    expect(words({ connected: false, waiting: 1, waitingElsewhere: 2 })).toContain("3 changes are not safe yet: they wait in this browser");
    expect(words({ connected: false, waiting: 2, exposed: true })).toContain("no room to keep them, so leave this page open");
    expect(words({ waiting: 1, hindrance: "journal_full" })).toBe(
      "The disk is full. One change is not safe yet: it waits in this browser and is sent by itself. Make room on the disk.",
    );
  });

  it("tells a file that is gone from one that was changed", () => {
    expect(told({ diskChanged: true }).map(({ todo }) => todo)).toEqual(["compare"]);
    expect(told({ diskChanged: true, diskMissing: true }).map(({ todo }) => todo)).toEqual(["write again"]);
  });

  it("puts the gravest first", () => {
    const all = told({ diskChanged: true, journal: "shortened", partsChanged: true, connected: false });
    expect(all.map(({ grave }) => grave)).toEqual(["stop", "stop", "look", "look"]);
    expect(all[0]?.id).toBe("away");
  });

  it("says a refusal in its own words where the server's name a file", () => {
    expect(wordsOfRefusal("disk", "/a/b.toml: no room", "x").join(" ")).not.toContain("/");
    expect(wordsOfRefusal("bad_name", "The name is taken.", "Use another name.")).toEqual(["The name is taken.", "Use another name."]);
  });

  it("uses whole sentences, and no sign that belongs into a file or on a keyboard", () => {
    const states: Partial<Standing>[] = [
      ...(["other_writes", "cannot_write", "in_memory", "renewed", "shortened", "beside"] as const).map((journal) => ({ journal })),
      ...(["journal_full", "journal", "read_only"] as const).map((hindrance) => ({ hindrance, waiting: 3 })),
      { connected: false },
      { exposed: true, waiting: 1 },
      { waitingElsewhere: 1 },
      { diskChanged: true },
      { diskMissing: true },
      { partsChanged: true },
    ];
    for (const state of states) {
      const [notice, ...others] = told(state);
      expect(others).toEqual([]);
      expect(notice?.title).toMatch(/^[A-Z][^/_{}[\]`=]*\.$/);
      expect(notice?.rest).toMatch(/^[A-Z0-9][^/_{}[\]`=]*\.$/);
    }
  });
});
