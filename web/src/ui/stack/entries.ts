import type { Draft, Edit } from "../../api/model";

/** One entry of a stack as the technician listed it; the first lies on the seat. */
export interface StackEntry {
  path: string; // "unit[0].piston_valve.rebound.stack[2]"
  text: string; // "3 x 24 x 0.15 mm"; of a table form, what its fields say in that way
  fields?: Record<string, string>; // of an entry in table form: its keys as typed
  draft?: { typed: string; what: string; remedy: string }; // typed, but it cannot be read
  insert?: boolean; // not in the file yet: its draft would go in before the entry at `path`
}

/** An entry taken apart; numbers in the unit that stands behind them. */
export interface ShimText {
  count: number;
  diameter: string; // as typed, "24"
  thickness: string;
  unit: string; // "mm"
}

const NUMBER = String.raw`\d+(?:[.,]\d+)?(?:\/\d+)?`;
const TIMES = String.raw`\s*[xX×*]\s*`;
const SHIMS = new RegExp(
  `^\\s*(?:(\\d+)${TIMES})?(${NUMBER})\\s*([a-z"]*)${TIMES}(${NUMBER})\\s*([a-z"]*)\\s*$`,
  "i",
);
const COUNTED = new RegExp(`^\\s*(\\d+)(${TIMES})`);

/** "3 x 24 x 0.15 mm" taken apart; null when it is no such text (a part's name, or nonsense). */
export function parseShims(text: string): ShimText | null {
  const m = SHIMS.exec(text);
  if (!m) return null;
  const unit = m[5] || m[3] || "";
  if (m[3] && m[5] && m[3] !== m[5]) return null;
  return { count: Number(m[1] ?? 1), diameter: m[2]!, thickness: m[4]!, unit };
}

/** "3 x " and what stands behind it. In "20x0.15", which may be a part's name, nothing is counted. */
function split(text: string): { count: number; head: string; rest: string } {
  const shims = SHIMS.exec(text);
  const counted = shims && shims[1] === undefined ? null : COUNTED.exec(text);
  const head = counted?.[0] ?? "";
  return { count: Number(counted?.[1] ?? 1), head, rest: text.slice(head.length).trim() };
}

/** The name in "2 x shim 20x0.15" or "20x0.15"; null for a text of lengths. */
export function partName(text: string): string | null {
  if (parseShims(text)?.unit) return null; // "21x0.10" may be a name, "21 x 0.10 mm" is not
  return split(text).rest.replace(/^shim\s+/, "") || null;
}

export function countOf(entry: StackEntry): number {
  if (entry.fields) return Number(entry.fields["count"] ?? 1) || 1;
  return split(entry.text).count;
}

/** The same entry with another count, everything else as it was typed. */
export function withCount(entry: StackEntry, count: number): Edit {
  if (entry.fields) return { set: `${entry.path}.count`, typed: String(count) };
  const { head, rest } = split(entry.text);
  return retyped(entry, head ? head.replace(/\d+/, String(count)) + rest : `${count} x ${rest}`);
}

/** "21 x 0.10 mm" of a part, or what its lengths say when its label is worded otherwise. */
export function lengthsOf(part: { label: string; outer_diameter: number; thickness: number }, unit: string): ShimText {
  const label = parseShims(part.label);
  if (label?.unit) return { ...label, count: 1 };
  return {
    count: 1,
    diameter: lengthText(part.outer_diameter, unit),
    thickness: lengthText(part.thickness, unit),
    unit: unit || "mm",
  };
}

/** A length as one would type it: no more digits than it has. */
export function lengthText(si: number, unit: string): string {
  const inches = unit === "in" || unit === '"';
  const value = inches ? si / 0.0254 : si * 1e3;
  return String(Number(value.toFixed(inches ? 5 : 4)));
}

/** What is typed as a length of the entry in SI; NaN when it is none. */
export function lengthSi(text: string, unit: string): number {
  const worth: Record<string, number> = { mm: 1e-3, in: 0.0254, '"': 0.0254, cm: 1e-2, m: 1, um: 1e-6, µm: 1e-6, mil: 25.4e-6 };
  const [top, bottom] = text.replace(",", ".").split("/");
  return (Number(top) / Number(bottom ?? 1)) * (worth[unit] ?? NaN);
}

export function shimText(count: number, shims: Pick<ShimText, "diameter" | "thickness" | "unit">): string {
  return `${count} x ${shims.diameter} x ${shims.thickness} ${shims.unit}`;
}

/** The entry made of another shim; its count and its manner (lengths, name or table) stay. */
export function withShim(
  entry: StackEntry,
  part: { name: string; label: string; outer_diameter: number; thickness: number },
): Edit[] {
  const shims = parseShims(entry.text);
  if (entry.fields) {
    const old = entry.fields["outer_diameter"] ?? "mm";
    const lengths = lengthsOf(part, /in|"/.test(old) ? "in" : "mm");
    return [
      { set: `${entry.path}.outer_diameter`, typed: `${lengths.diameter} ${lengths.unit}` },
      { set: `${entry.path}.thickness`, typed: `${lengths.thickness} ${lengths.unit}` },
    ];
  }
  const count = countOf(entry);
  if (!shims?.unit && part.name) return [retyped(entry, `${count} x shim ${part.name}`)];
  return [retyped(entry, shimText(count, lengthsOf(part, shims?.unit || "mm")))];
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
