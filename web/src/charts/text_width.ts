/** Size of words on a drawing [px]; --small at the usual root size. */
export const SMALL = 13;

const known = new Map<string, number>();
let pen: CanvasRenderingContext2D | null | undefined;

/**
 * Width of a text [px] at `size`, without asking the page to lay anything out. On a page a canvas measures it in the
 * page's own face; elsewhere (tests) a humanist sans' mean widths stand in. Cached: labels repeat.
 */
export function textWidth(text: string, size = SMALL, semibold = false): number {
  const key = `${semibold ? "b" : "r"}${size}${text}`;
  const cached = known.get(key);
  if (cached !== undefined) return cached;
  const width = measured(text, size, semibold) ?? estimated(text, size) * (semibold ? 1.05 : 1);
  if (known.size > 4000) known.clear();
  known.set(key, width);
  return width;
}

/** Widths taken before the page's face had come are of another face. */
export function forgetWidths(): void {
  known.clear();
}

function measured(text: string, size: number, semibold: boolean): number | undefined {
  if (typeof document === "undefined") return undefined;
  pen ??= document.createElement("canvas").getContext("2d");
  if (!pen) return undefined;
  pen.font = `${semibold ? 600 : 400} ${size}px "Workbench Sans", system-ui, sans-serif`;
  return pen.measureText(text).width;
}

function estimated(text: string, size: number): number {
  let em = 0;
  for (const c of text) {
    if ("iljtf.,:;'|!()[] \u2009".includes(c)) em += 0.3;
    else if ("mwMW@%".includes(c)) em += 0.86;
    else if (c >= "A" && c <= "Z") em += 0.64;
    else em += 0.55;
  }
  return em * size;
}
