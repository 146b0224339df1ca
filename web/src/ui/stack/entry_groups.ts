import type { StackGeometry } from "../../api/model";
import { countOf, type StackEntry } from "./entries";
import type { ShimPart } from "./parts";
import { partName } from "./shim_text";
import { sizeOf } from "./steps";

/**
 * Which drawn group each entry is. Of a fresh drawing they run side by side; of an older one they are matched by what
 * they are, in order, so that a leader never points at another shim. Null: not drawn.
 */
export function groupsOf(
  n: number,
  nGroups: number,
  fresh: boolean,
  alike: (entry: number, group: number) => boolean,
): (number | null)[] {
  const matched = new Array<number | null>(n).fill(null);
  if (fresh && n === nGroups) return matched.map((_, i) => i);
  // longest common run of the two lists, order kept
  const best = Array.from({ length: n + 1 }, () => new Array<number>(nGroups + 1).fill(0));
  for (let i = n - 1; i >= 0; --i)
    for (let k = nGroups - 1; k >= 0; --k)
      best[i]![k] = alike(i, k) ? best[i + 1]![k + 1]! + 1 : Math.max(best[i + 1]![k]!, best[i]![k + 1]!);
  let i = 0;
  let k = 0;
  while (i < n && k < nGroups) {
    if (alike(i, k)) matched[i++] = k++;
    else if (best[i + 1]![k]! >= best[i]![k + 1]!) ++i;
    else ++k;
  }
  // between two matched neighbours a single changed entry is still the single group there
  for (let e = 0; e < n; ++e) {
    if (matched[e] !== null) continue;
    const below = e === 0 ? -1 : matched[e - 1]!;
    const above = e === n - 1 ? nGroups : matched[e + 1]!;
    if (below !== null && above !== null && above - below === 2) matched[e] = below + 1;
  }
  return matched;
}

const SAME = 2e-6; // lengths closer than this are one size [m]

/** The drawn group of each entry; `fresh`: it was drawn from these very entries. */
export function drawnGroups(
  entries: readonly StackEntry[],
  geometry: StackGeometry | undefined,
  parts: readonly ShimPart[],
  fresh: boolean,
): (number | null)[] {
  return groupsOf(entries.length, geometry?.groups.length ?? 0, fresh, (i, k) => {
    const group = geometry!.groups[k]!;
    const disc = geometry!.discs[group.first - 1]!;
    const entry = entries[i]!;
    const part = partName(entry.text);
    const size = sizeOf(entry) ?? parts.find((p) => p.name === part);
    return (
      !entry.draft &&
      size !== undefined &&
      countOf(entry) === group.count &&
      Math.abs(size.outer_diameter - 2 * disc.outer_radius) < SAME &&
      Math.abs(size.thickness - disc.thickness) < SAME
    );
  });
}
