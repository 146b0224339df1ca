/** A line of two texts that stand side by side: on both sides, or on one alone. */
export interface DiffRow {
  readonly left: string | undefined;
  readonly right: string | undefined;
}

const mostCells = 4_000_000; // of the table below; longer texts are compared as one block

/** The lines of both texts in order; equal ones beside each other, by their longest common subsequence. */
export function rowsOf(left: string, right: string): DiffRow[] {
  const a = left.split("\n");
  const b = right.split("\n");
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head += 1;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a.at(-1 - tail) === b.at(-1 - tail)) tail += 1;

  const both = (line: string): DiffRow => ({ left: line, right: line });
  return [
    ...a.slice(0, head).map(both),
    ...changed(a.slice(head, a.length - tail), b.slice(head, b.length - tail)),
    ...a.slice(a.length - tail).map(both),
  ];
}

function changed(a: readonly string[], b: readonly string[]): DiffRow[] {
  const width = b.length + 1;
  const common = new Uint32Array(a.length * b.length > mostCells ? 0 : (a.length + 1) * width); // from line i and j on
  if (common.length > 0) {
    for (let i = a.length - 1; i >= 0; --i) {
      for (let j = b.length - 1; j >= 0; --j) {
        const at = i * width + j;
        common[at] = a[i] === b[j] ? 1 + common[at + width + 1]! : Math.max(common[at + width]!, common[at + 1]!);
      }
    }
  }
  const rows: DiffRow[] = [];
  let out: string[] = []; // on the left alone, and not yet put beside a line of the right
  let into: string[] = [];
  const close = (): void => {
    for (let n = 0; n < Math.max(out.length, into.length); ++n) rows.push({ left: out[n], right: into[n] });
    out = [];
    into = [];
  };
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    const at = i * width + j;
    if (common.length > 0 && i < a.length && j < b.length && a[i] === b[j]) {
      close();
      rows.push({ left: a[i], right: b[j] });
      i += 1;
      j += 1;
    } else if (j >= b.length || (i < a.length && (common.length === 0 || common[at + width]! >= common[at + 1]!))) {
      out.push(a[i]!);
      i += 1;
    } else {
      into.push(b[j]!);
      j += 1;
    }
  }
  close();
  return rows;
}

/** What is shown of the rows: those that differ, with a few equal ones around them; a number stands for so many left out. */
export function excerptOf(rows: readonly DiffRow[], around = 2): (DiffRow | number)[] {
  const differs = rows.map(({ left, right }) => left !== right);
  const shown = rows.map((_, at) => differs.slice(Math.max(0, at - around), at + around + 1).some(Boolean));
  const found: (DiffRow | number)[] = [];
  rows.forEach((row, at) => {
    const last = found.at(-1);
    if (shown[at]) found.push(row);
    else if (typeof last === "number") found[found.length - 1] = last + 1;
    else found.push(1);
  });
  return found;
}
