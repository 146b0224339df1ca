import { SMALL, textWidth } from "../../charts/text_width";
import type { Measures } from "../../units/measures";
import type { LedgerLine, PostResult } from "../../api/model";

/** A piece of the post as drawn: upper half of its section. */
export interface Piece {
  line: LedgerLine;
  left: number; // [px]
  right: number;
  top: number;
  name: string;
  nameX: number;
  nameY: number; // baseline
  hatch: "filled" | "up" | "down" | "nut";
}

/** The post with a size: all in pixels, the axis horizontal, the shoulder at the left. */
export interface PostLayout {
  width: number;
  height: number;
  axis: number; // y
  shoulder: number; // x of the shoulder's face
  end: number; // x of the post's end
  half: number; // half height of the post
  bore: number | null; // half height of a hollow post's bore
  along: number; // [px/m]
  across: number; // [px/m]
  pieces: Piece[];
  rod: string; // path: the rod up to its shoulder
  thread: { root: string; turns: string } | null;
  held: { left: number; right: number } | null; // the turns that the nut holds on
  dimensions: Dimension[];
}

export interface Dimension {
  from: number;
  to: number;
  y: number;
  words: string;
  textX: number;
  anchor: "middle" | "start" | "end";
}

const SHOULDER = 26; // of the rod drawn left of the shoulder [px]
const PITCH = SMALL + 5; // between the names above [px]
const LARGEST = 120; // half height of the largest piece [px]

/** Radii of pieces without a stated size: different enough to see [m]. */
const USUAL: Record<string, number> = { piston: 14e-3, disc: 11e-3, nut: 7e-3, washer: 7e-3 };

function radiusOf(line: LedgerLine): number {
  return line.outer_radius > 0 ? line.outer_radius : (USUAL[line.shape] ?? 6e-3);
}

function round(v: number): number {
  return Math.round(v * 10) / 10;
}

/** A stack that slides on a collar has no height of its own on the post. */
export function pieceName(line: LedgerLine, measures: Measures): string {
  const name = line.count > 1 ? `${line.count} × ${line.name}` : line.name;
  if (line.height <= 0) return name;
  return `${name}, ${measures.thickness.text(line.height)}${line.measured ? " measured" : ""}`;
}

function lengthOf(post: PostResult): number {
  return Math.max(1e-4, post.thread?.post_length ?? 0, ...post.ledger.map((l) => l.to));
}

function dimension(from: number, to: number, y: number, words: string, width: number): Dimension {
  const wide = textWidth(words);
  if (wide + 24 < to - from) return { from, to, y, words, textX: (from + to) / 2, anchor: "middle" };
  if (to + 6 + wide < width) return { from, to, y, words, textX: to + 6, anchor: "start" };
  if (from - 6 - wide > 0) return { from, to, y, words, textX: from - 6, anchor: "end" };
  return { from, to, y, words, textX: Math.min(Math.max((from + to) / 2, wide / 2), width - wide / 2), anchor: "middle" };
}

function threadPaths(post: PostResult, x: (z: number) => number, top: number, across: number): PostLayout["thread"] {
  const t = post.thread;
  if (!t || !(t.pitch > 0)) return null;
  // ISO 6410: a thin line at the root; the turns as a saw edge, so that they can be counted
  const depth = Math.max(3, 0.6 * across * t.pitch);
  let turns = `M${round(x(t.thread_start))} ${round(top)}`;
  for (let z = t.thread_start; z + t.pitch <= t.post_length + 1e-9; z += t.pitch)
    turns += `L${round(x(z + t.pitch / 2))} ${round(top + depth)}L${round(x(z + t.pitch))} ${round(top)}`;
  return { root: `M${round(x(t.thread_start))} ${round(top + depth)}H${round(x(t.post_length))}`, turns };
}

/** The largest scale at which every name still ends inside the drawing, right of its leader. */
function scaleAlong(post: PostResult, names: readonly string[], width: number): number {
  const widest = (width - SHOULDER - 24) / lengthOf(post);
  return post.ledger.reduce((scale, l, k) => {
    const middle = (l.from + l.to) / 2;
    const room = Math.max(width - SHOULDER - 6 - textWidth(names[k]!), 0.3 * width);
    return middle > 0 ? Math.min(scale, room / middle) : scale;
  }, widest);
}

/** Places of everything. Names run to the right, each in a row of its own; later leaders begin lower and cross none. */
export function postLayout(post: PostResult, width: number, measures: Measures): PostLayout {
  const names = post.ledger.map((l) => pieceName(l, measures));
  const along = scaleAlong(post, names, width);
  const largest = Math.max(1e-4, ...post.ledger.map(radiusOf));
  const across = Math.min(LARGEST / largest, along);
  const half = Math.min(Math.max(across * post.major_radius, 14), 0.5 * across * largest);
  const x = (z: number): number => SHOULDER + along * z;
  const namesHigh = PITCH * names.length + 10;
  const axis = namesHigh + Math.max(across * largest, half + 12) + 8;
  const top = axis - half;

  const pieces = post.ledger.map((line, k): Piece => {
    const middle = (x(line.from) + x(line.to)) / 2;
    return {
      line,
      left: x(line.from),
      right: x(line.to),
      top: axis - Math.max(across * radiusOf(line), half + 5),
      name: names[k]!,
      nameX: Math.max(0, Math.min(middle + 6, width - textWidth(names[k]!))),
      nameY: 14 + PITCH * k,
      hatch: line.shape === "disc" ? "filled" : line.shape === "nut" ? "nut" : k % 2 ? "down" : "up",
    };
  });

  const t = post.thread;
  const nut = post.ledger.filter((l) => l.shape === "nut").pop();
  const dimensions: Dimension[] = [];
  if (nut && nut.from > 0)
    dimensions.push(dimension(x(0), x(nut.from), axis + 22, `shoulder to nut ${measures.thickness.text(nut.from)}`, width));
  if (nut && t) {
    const [low, high] = [Math.min(nut.to, t.post_length), Math.max(nut.to, t.post_length)];
    const words = `${measures.thickness.text(Math.abs(t.protrusion))} ${t.protrusion >= 0 ? "out" : "inside"}`;
    dimensions.push(dimension(x(low), x(high), axis + 44, words, width));
  }
  const held = nut && t ? { left: x(Math.max(nut.from, t.thread_start)), right: x(Math.min(nut.to, t.post_length)) } : null;
  return {
    width,
    height: axis + 58,
    axis,
    shoulder: SHOULDER,
    end: x(t ? t.post_length : lengthOf(post)),
    half,
    bore: post.bore_radius > 0 ? Math.min(across * post.bore_radius, half - 5) : null,
    along,
    across,
    pieces,
    rod: `M0 ${round(top - 14)}H${SHOULDER}V${round(axis)}H0`,
    thread: threadPaths(post, x, top, across),
    held: held && held.right > held.left ? held : null,
    dimensions,
  };
}
