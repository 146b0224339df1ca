import type { Edit } from "../../api/model";
import type { StackEntry } from "./entries";

/** The list with its paths as they are in the file: entries that are not in it yet do not count there. */
function placed(entries: readonly StackEntry[], list: string): StackEntry[] {
  let index = 0;
  return entries.map((entry) => ({ ...entry, path: `${list}[${entry.insert ? index : index++}]` }));
}

/** The entries as they will be when these edits have been taken: so that a hand may go on before the answer comes. */
export function foreseen(entries: readonly StackEntry[], list: string, edits: readonly Edit[]): StackEntry[] {
  let now = [...entries];
  for (const edit of edits) {
    if ("set" in edit) {
      if (edit.set === list) {
        const texts = textsOf(edit.typed);
        now = texts.map((text, i) => ({ path: `${list}[${i}]`, text }));
        continue;
      }
      now = now.map((entry) => (entry.insert ? entry : withSet(entry, edit.set, edit.typed)));
      continue; // no place has changed
    }
    if ("remove" in edit) now = now.filter((entry) => entry.insert || entry.path !== edit.remove);
    else if ("drop" in edit) now = now.filter((entry) => !entry.insert || entry.path !== edit.drop);
    else if ("move" in edit) {
      const from = now.findIndex((entry) => !entry.insert && entry.path === edit.move);
      const [moved] = from < 0 ? [] : now.splice(from, 1);
      if (moved) now.splice(placeOf(now, edit.to), 0, moved);
    } else if ("insert" in edit) {
      const old = now.findIndex((entry) => entry.insert && entry.path === edit.insert); // another try at the same newcomer
      if (old >= 0) now.splice(old, 1);
      const at = Number(/\[(\d+)\]$/.exec(edit.insert)?.[1] ?? 0);
      now.splice(old >= 0 ? old : placeOf(now, at), 0, { path: edit.insert, text: edit.typed });
    }
    now = placed(now, list);
  }
  return now;
}

/** The place in the shown list of the entry with this place in the file. */
function placeOf(entries: readonly StackEntry[], inFile: number): number {
  let seen = 0;
  for (let i = 0; i < entries.length; ++i) {
    if (entries[i]!.insert) continue;
    if (seen === inFile) return i;
    ++seen;
  }
  return entries.length;
}

function withSet(entry: StackEntry, path: string, typed: string): StackEntry {
  if (path === entry.path) return { path: entry.path, text: typed };
  if (!entry.fields || !path.startsWith(`${entry.path}.`)) return entry;
  return { ...entry, fields: { ...entry.fields, [path.slice(entry.path.length + 1)]: typed } };
}

function textsOf(array: string): string[] {
  try {
    return (JSON.parse(array) as unknown[]).map(String);
  } catch {
    return [array];
  }
}

/** What makes two lists different for the user: the text of each entry, accepted or not. */
export function wordsOf(entries: readonly StackEntry[]): string {
  return JSON.stringify(entries.map((e) => (e.fields ? Object.entries(e.fields).sort() : (e.draft?.typed ?? e.text))));
}
