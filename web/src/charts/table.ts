import type { PlotLine } from "../api/model";
import type { Range } from "./axis";
import { readingsAt, stops } from "./cursor";
import type { Measure } from "../units/measures";
import { type DrawnPlot, headingOf } from "./drawn";

/** The data of a plot in rows: what the page shows as a table and saves as CSV. */
export interface PlotTable {
  columns: { title: string; unit: string }[];
  rows: Cell[][];
}

/** A number in SI with its measure, a word, or nothing. */
export type Cell = { si: number; measure: Measure; note?: string } | string | null;

function within(v: number, shown: Range | null): boolean {
  return !shown || (v >= shown.min && v <= shown.max);
}

/** Every line, also those of a fan, in the piece that is shown. Loops get one row a point with their name first. */
export function tableOf(spec: DrawnPlot, shown: Range | null): PlotTable {
  const x = { title: spec.x.title, unit: spec.x.measure.unit };
  if (spec.lines.some((s) => s.loop)) {
    const rows: Cell[][] = [];
    for (const s of spec.lines)
      s.x.forEach((v, i) => {
        if (within(v, shown))
          rows.push([headingOf(s), { si: v, measure: spec.x.measure }, { si: s.y[i]!, measure: spec.y.measure }]);
      });
    return { columns: [{ title: "line", unit: "" }, x, { title: spec.y.title, unit: spec.y.measure.unit }], rows };
  }
  // what is read first stands first; a fan's lines come last
  const heavy = spec.lines.filter((s) => s.weight === "heavy");
  const series = [...heavy, ...spec.lines.filter((s) => s.weight !== "heavy" && !s.behind), ...spec.lines.filter((s) => s.behind)];
  const columns = [x, ...series.map((s) => ({ title: headingOf(s), unit: spec.y.measure.unit }))];
  const rows = stops({ ...spec, lines: heavy.length ? heavy : spec.lines })
    .filter((v) => within(v, shown))
    .map((v) => [{ si: v, measure: spec.x.measure } as Cell, ...series.map((s) => cellAt(spec, s, v))]);
  return { columns, rows };
}

/** The value of a line as drawn: between its points straight, beyond its ends none. */
function cellAt(spec: DrawnPlot, s: PlotLine, v: number): Cell {
  const [reading] = readingsAt({ ...spec, lines: [{ ...s, behind: false }] }, v);
  if (!reading) return null;
  const cell = { si: reading.own, measure: spec.y.measure };
  return reading.dotted && spec.dots ? { ...cell, note: spec.dots } : cell;
}

function quoted(text: string): string {
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Lines end in CR LF and texts are quoted where they must be (RFC 4180). Six figures, point as decimal sign. */
export function csvOf(table: PlotTable): string {
  const noted = table.columns.map((_, k) =>
    table.rows.some((row) => typeof row[k] === "object" && row[k] !== null && row[k].note),
  );
  const lines = [
    table.columns.flatMap((c, k) => {
      const title = quoted(c.unit ? `${c.title} [${c.unit}]` : c.title);
      return noted[k] ? [title, quoted(`${c.title}, remark`)] : [title];
    }),
    ...table.rows.map((row) =>
      row.flatMap((cell, k) => {
        const value =
          cell === null
            ? ""
            : typeof cell === "string"
              ? quoted(cell)
              : String(Number(cell.measure.value(cell.si).toPrecision(6)));
        const note = typeof cell === "object" && cell !== null ? (cell.note ?? "") : "";
        return noted[k] ? [value, quoted(note)] : [value];
      }),
    ),
  ];
  return lines.map((line) => `${line.join(",")}\r\n`).join("");
}
