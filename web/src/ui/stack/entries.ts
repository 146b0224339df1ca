import type { Draft, Edit } from "../../api/model";
import { lengthsOf, readShims, shimText, splitCount, unitBeside } from "./shim_text";

/** One entry of a stack as the technician listed it; the first lies on the seat. */
export interface StackEntry {
  path: string; // "unit[0].piston_valve.rebound.stack[2]"
  text: string; // "3 x 24 x 0.15 mm"; of a table form, what its fields say in that way
  fields?: Record<string, string>; // of an entry in table form: its keys as typed
  draft?: { typed: string; what: string; remedy: string }; // typed, but it cannot be read
  insert?: boolean; // not in the file yet: its draft would go in before the entry at `path`
}

export function countOf(entry: StackEntry): number {
  if (entry.fields) return Number(entry.fields["count"] ?? 1) || 1;
  return splitCount(entry.text).count;
}

/** The same entry with another count, everything else as it was typed. */
export function withCount(entry: StackEntry, count: number): Edit {
  if (entry.fields) return { set: `${entry.path}.count`, typed: String(count) };
  const { head, rest } = splitCount(entry.text);
  return retyped(entry, head ? head.replace(/\d+/, String(count)) + rest : `${count} x ${rest}`);
}

/** The entry made of another shim; its count and its manner (lengths, name or table) stay. */
export function withShim(
  entry: StackEntry,
  part: { name: string; label: string; outer_diameter: number; thickness: number },
): Edit[] {
  if (entry.fields) {
    const { diameter, thickness } = lengthsOf(part, /in\b/.test(entry.fields["outer_diameter"] ?? "") ? "in" : "mm");
    return [
      { set: `${entry.path}.outer_diameter`, typed: `${diameter.text} ${diameter.unit}` },
      { set: `${entry.path}.thickness`, typed: `${thickness.text} ${thickness.unit}` },
    ];
  }
  const shims = readShims(entry.text);
  const count = countOf(entry);
  if (!shims?.size && part.name) return [retyped(entry, `${count} x shim ${part.name}`)];
  return [retyped(entry, shimText(count, lengthsOf(part, unitBeside(shims?.thickness.unit ?? ""))))];
}

/** Another text for an entry; for one that is not in the file yet, another try to put it in. */
export function retyped(entry: StackEntry, typed: string): Edit {
  return entry.insert ? { insert: entry.path, typed } : { set: entry.path, typed };
}

/** What an entry in table form says, in the manner of a text. */
function textOfFields(fields: Record<string, string>): string {
  const count = Number(fields["count"] ?? 1) || 1;
  const part = fields["part"];
  const body = part ? `shim ${part}` : `${fields["outer_diameter"] ?? "?"} x ${fields["thickness"] ?? "?"}`;
  return count > 1 ? `${count} x ${body}` : body;
}

/** TOML of an entry, so that a copy of one in table form is in table form too. */
export function tomlOf(entry: StackEntry): string {
  if (!entry.fields) return entry.text;
  const quote = (key: string, value: string): string =>
    key === "count" || /^(true|false)$/.test(value) ? value : `"${value.replaceAll("\\", "\\\\").replaceAll('"', '\\"')}"`;
  return `{ ${Object.entries(entry.fields)
    .map(([key, value]) => `${key} = ${quote(key, value)}`)
    .join(", ")} }`;
}

/** The entries of the list at `list` from the values and drafts of a job's state. */
export function entriesOf(
  values: Readonly<Record<string, string>>,
  drafts: readonly Draft[],
  list: string,
): StackEntry[] {
  const texts = new Map<number, string>();
  const fields = new Map<number, Record<string, string>>();
  for (const [path, typed] of Object.entries(values)) {
    if (path === list && typed !== "" && typed !== "[]") texts.set(0, typed); // one text alone is a list of one
    if (!path.startsWith(`${list}[`)) continue;
    const m = /^\[(\d+)\](?:\.(.+))?$/.exec(path.slice(list.length));
    if (!m) continue;
    const index = Number(m[1]);
    if (m[2] === undefined) texts.set(index, typed);
    else fields.set(index, { ...fields.get(index), [m[2]]: typed });
  }
  const entries: StackEntry[] = [];
  const n = Math.max(-1, ...texts.keys(), ...fields.keys()) + 1;
  for (let index = 0; index < n; ++index) {
    const alone = values[list] !== undefined && index === 0 && texts.get(0) === values[list] && n === 1;
    const path = alone ? list : `${list}[${index}]`;
    const table = fields.get(index);
    const entry: StackEntry = { path, text: table ? textOfFields(table) : (texts.get(index) ?? "") };
    if (table) entry.fields = table;
    const draft = drafts.find((d) => !d.insert && (d.path === path || d.path.startsWith(`${path}.`)));
    if (draft) entry.draft = draftOf(draft);
    entries.push(...newcomers(drafts, `${list}[${index}]`), entry);
  }
  entries.push(...newcomers(drafts, `${list}[${n}]`));
  return entries;
}

function draftOf(draft: Draft): NonNullable<StackEntry["draft"]> {
  return { typed: draft.typed, what: draft.diagnostic.what, remedy: draft.diagnostic.remedy };
}

/** What was typed as a new entry before the one at `path` and cannot be read. */
function newcomers(drafts: readonly Draft[], path: string): StackEntry[] {
  return drafts.filter((d) => d.insert && d.path === path).map((d) => ({ path, text: d.typed, insert: true, draft: draftOf(d) }));
}
