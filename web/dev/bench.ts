import type { Draft, Edit, StackGeometry, StackResult } from "../src/api/model";
import { countOf, entriesOf, type StackEntry } from "../src/ui/stack/entries";
import { sizeOf } from "../src/ui/stack/steps";

/** The list of texts after some edits, as the job file would hold it. Good enough for a harness. */
export function applied(texts: string[], edits: Edit[]): string[] {
  const now = [...texts];
  for (const edit of edits) {
    const path = Object.values(edit)[0] as string;
    const index = Number(/\[(\d+)\]$/.exec(path)?.[1] ?? 0);
    if ("set" in edit) now[index] = edit.typed;
    else if ("remove" in edit) now.splice(index, 1);
    else if ("insert" in edit) now.splice(index, 0, edit.typed);
    else if ("move" in edit) now.splice(edit.to, 0, now.splice(index, 1)[0]!);
  }
  return now;
}

export function entriesFrom(texts: string[], list: string): StackEntry[] {
  const values = Object.fromEntries(texts.map((t, i) => [`${list}[${i}]`, t]));
  const drafts = texts.flatMap((t, i) =>
    sizeOf({ path: "", text: t })
      ? []
      : [{ path: `${list}[${i}]`, typed: t, diagnostic: { what: "this is not a shim", remedy: 'Write count x outer diameter x thickness, "3 x 24 x 0.15 mm".' } }],
  );
  return entriesOf(values, drafts, list);
}

/** The stack of these entries lying flat on the same piston: what the server would answer, without its physics. */
export function flatStack(base: StackResult, entries: StackEntry[]): StackResult {
  const geometry: StackGeometry = { ...base.geometry, discs: [], groups: [], height: 0 };
  for (const entry of entries) {
    const size = sizeOf(entry);
    if (!size) continue;
    const count = countOf(entry);
    geometry.groups.push({ count, first: geometry.discs.length + 1, label: entry.text });
    for (let k = 0; k < count; ++k) {
      geometry.discs.push({
        number: geometry.discs.length + 1,
        group: geometry.groups.length - 1,
        label: entry.text,
        outer_radius: size.outer_diameter / 2,
        bore_radius: base.geometry.bore_radius,
        thickness: size.thickness,
        height: geometry.height,
        ring: false,
        carries: true,
      });
      geometry.height += size.thickness;
    }
  }
  return { ...base, geometry, worst_disc: 0 };
}
