import type { Edit, StackGeometry } from "../../api/model";
import { countOf, retyped, type StackEntry, tomlOf, withCount, withShim } from "./entries";
import { nextSize, partsFor, type ShimPart, type Size } from "./parts";
import { lengthsOf, partName, readShims, shimText, unitBeside } from "./shim_text";

/** A stack being worked on: its entries, what is in hand, and the sizes of what lies there now (of entries that are read). */
export interface Bench {
  list: string; // path of the list
  entries: readonly StackEntry[];
  sizes: readonly (Size | null)[]; // by entry
  parts: readonly ShimPart[]; // that go on this post
  unit: "mm" | "in"; // of newly typed shims
}

/** The bench of a list: sizes as typed, of a part by name as drawn. `unit`: of new shims where none here has one. */
export function benchOf(
  list: string,
  entries: readonly StackEntry[],
  drawn: { geometry: StackGeometry | undefined; groups: readonly (number | null)[] },
  parts: readonly ShimPart[],
  unit: "mm" | "in" | undefined,
): Bench {
  const { geometry, groups } = drawn;
  const drawnSize = (group: number | null | undefined): Size | null => {
    const disc = group === null || group === undefined ? undefined : geometry?.discs[geometry.groups[group]!.first - 1];
    return disc ? { outer_diameter: 2 * disc.outer_radius, thickness: disc.thickness } : null;
  };
  const typed = entries.map((entry) => readShims(entry.text)?.thickness.unit).find((one) => one);
  return {
    list,
    entries,
    sizes: entries.map((entry, i) => sizeOf(entry) ?? drawnSize(groups[i])),
    parts: partsFor(parts, geometry && 2 * geometry.bore_radius),
    unit: typed === undefined ? (unit ?? "mm") : unitBeside(typed),
  };
}

/** One step of work: edits to keep, words for undo, what is in hand afterwards. Or why there is no step. */
export type Step = { edits: Edit[]; words: string; select: number } | { refused: string };

const NAMES = ["face shim", "second from the seat", "third from the seat"];

export function placeWords(index: number, n: number): string {
  return n > 1 && index === n - 1 ? "under the clamp" : (NAMES[index] ?? `entry ${index + 1} from the seat`);
}

function typedOf(edit: Edit | undefined): string {
  return edit && "typed" in edit ? edit.typed : "";
}

export function changeCount(b: Bench, index: number, by: number): Step {
  const entry = b.entries[index];
  if (!entry) return { refused: "no shim is selected" };
  const count = countOf(entry) + by;
  if (count < 1) return { refused: "one is the smallest count; Delete removes the entry" };
  const edit = withCount(entry, count);
  return { edits: [edit], words: entry.fields ? `${count} of ${entry.text}` : typedOf(edit), select: index };
}

/** The next diameter or thickness in hand. */
export function stepSize(b: Bench, index: number, what: keyof Size, by: 1 | -1): Step {
  const entry = b.entries[index];
  const size = entry && (b.sizes[index] ?? sizeOf(entry));
  if (!entry || !size) return { refused: "this entry cannot be read yet" };
  const typed = readShims(entry.text)?.thickness.unit;
  const next = nextSize(b.parts, size, what, by, typed ? unitBeside(typed) : b.unit);
  if (!next) {
    const which = what === "thickness" ? (by > 0 ? "thicker" : "thinner") : by > 0 ? "larger" : "smaller";
    const row = what === "thickness" ? "of this diameter" : "of this thickness";
    return { refused: `no ${which} shim ${row} in hand` };
  }
  const edits = withShim(entry, next);
  return { edits, words: entry.fields ? edits.map(typedOf).join(" x ") : typedOf(edits[0]), select: index };
}

/** Sizes of an entry of lengths as typed, before it has been computed. */
export function sizeOf(entry: StackEntry): Size | null {
  return readShims(entry.text)?.size ?? null;
}

export function moveTo(b: Bench, index: number, to: number): Step {
  const entry = b.entries[index];
  if (!entry) return { refused: "no shim is selected" };
  if (to < 0) return { refused: "it is already on the seat" };
  if (to >= b.entries.length) return { refused: "it is already under the clamp" };
  if (to === index) return { refused: "it is already there" };
  if (entry.insert) return { refused: "it joins the stack only when it has no fault" };
  const others = b.entries.filter((_, i) => i !== index);
  return { edits: [{ move: entry.path, to: inFile(others, to) }], words: `${entry.text} moved, ${placeWords(to, b.entries.length)}`, select: to };
}

/** Place in the file of what lies at `at` here: entries that cannot be read yet do not count there. */
function inFile(entries: readonly StackEntry[], at: number): number {
  return entries.slice(0, at).filter((e) => !e.insert).length;
}

export function removeEntry(b: Bench, index: number): Step {
  const entry = b.entries[index];
  if (!entry) return { refused: "no shim is selected" };
  return {
    edits: [entry.insert ? { drop: entry.path } : { remove: entry.path }],
    words: `${entry.text} removed`,
    select: Math.min(index, b.entries.length - 2),
  };
}

/** Puts an entry in above `after` (-1: on the seat). */
export function addEntry(b: Bench, after: number, typed: string): Step {
  const text = completed(b, typed);
  const at = after + 1;
  const only = b.entries[0];
  // a list of one may be written as one text: it becomes a list first
  const edits: Edit[] =
    only && b.entries.length === 1 && only.path === b.list
      ? [{ set: b.list, typed: `[${(at ? [only.text, text] : [text, only.text]).map((t) => JSON.stringify(t)).join(", ")}]` }]
      : [{ insert: `${b.list}[${inFile(b.entries, at)}]`, typed: text }];
  return { edits, words: `${text} added, ${placeWords(at, b.entries.length + 1)}`, select: at };
}

export function duplicate(b: Bench, index: number): Step {
  const entry = b.entries[index];
  if (!entry) return { refused: "no shim is selected" };
  return addEntry(b, index, tomlOf(entry));
}

/** A shim from the drawer: one more of the entry in hand when it is the same, else an entry of its own above it. */
export function addPart(b: Bench, after: number, part: ShimPart): Step {
  const size = b.sizes[after] ?? null;
  if (size && near(size.outer_diameter, part.outer_diameter) && near(size.thickness, part.thickness))
    return changeCount(b, after, 1);
  const neighbour = b.entries[after];
  const byName = neighbour !== undefined && !neighbour.fields && partName(neighbour.text) !== null && part.name !== "";
  const typed = byName ? `1 x shim ${part.name}` : shimText(1, lengthsOf(part, b.unit));
  return addEntry(b, after, typed);
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) < 2e-6;
}

export function retype(b: Bench, index: number, typed: string): Step {
  const entry = b.entries[index];
  if (!entry) return { refused: "no shim is selected" };
  const text = completed(b, typed);
  if (text === entry.text && !entry.draft) return { refused: "" };
  if (entry.fields) {
    const shims = readShims(text);
    if (!shims?.size) return { refused: "this entry is a table: write count x diameter x thickness with a unit" };
    const { count, diameter, thickness } = shims;
    return {
      edits: [
        { set: `${entry.path}.count`, typed: String(count) },
        { set: `${entry.path}.outer_diameter`, typed: `${diameter.text} ${diameter.unit}` },
        { set: `${entry.path}.thickness`, typed: `${thickness.text} ${thickness.unit}` },
      ],
      words: text,
      select: index,
    };
  }
  return { edits: [retyped(entry, text)], words: text, select: index };
}

/** "3 x 24 x 0.15" takes the unit of its neighbours, unless it names a part. */
export function completed(b: Bench, typed: string): string {
  const text = typed.trim();
  const shims = readShims(text);
  if (!shims || shims.size) return text;
  const name = partName(text);
  if (b.parts.some((p) => p.name === name || p.name === text)) return text;
  return `${text} ${b.unit}`;
}
