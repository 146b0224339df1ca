/**
 * Places for labels that want to stand at `wanted` but keep `pitch` apart inside [min, max].
 * Labels that touch share their shift, so that each stands as near to its place as the others allow. Order is kept
 * (equal wishes: in order of the list), so leaders never cross.
 */
export function spread(wanted: readonly number[], pitch: number, min: number, max: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => at(wanted, a) - at(wanted, b) || a - b);
  interface Cluster {
    sum: number; // of wanted minus its index times the pitch
    first: number;
    n: number;
  }
  const start = (c: Cluster): number => {
    const high = Math.max(min, max - pitch * (c.n - 1));
    return Math.min(Math.max(c.sum / c.n, min), high);
  };
  const clusters: Cluster[] = [];
  order.forEach((i, k) => {
    clusters.push({ sum: at(wanted, i), first: k, n: 1 });
    while (clusters.length > 1) {
      const b = clusters[clusters.length - 1]!;
      const a = clusters[clusters.length - 2]!;
      if (start(a) + pitch * a.n <= start(b)) break;
      a.sum += b.sum - pitch * a.n * b.n;
      a.n += b.n;
      clusters.pop();
    }
  });
  const places = new Array<number>(wanted.length).fill(0);
  for (const c of clusters) {
    const from = start(c);
    for (let i = 0; i < c.n; ++i) places[order[c.first + i]!] = from + pitch * i;
  }
  return places;
}

function at(list: readonly number[], i: number): number {
  return list[i] ?? 0;
}
