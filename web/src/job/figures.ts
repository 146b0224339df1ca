import type { KeyFigure, KeyFigures, ResultDocument } from "../api/model";

const none: KeyFigures = { forces: [], margins: [] };

/** The key figures of one unit, or of the lone stack of a file: as the program computed and judged them. */
export function figuresOf(result: ResultDocument | undefined, unitIndex: number): KeyFigures {
  const unit = result?.units[unitIndex];
  return (unit ? unit.key_figures : result?.key_figures) ?? none;
}

/** Every figure of a set, by its key: so that before and after find each other. */
export function byKey(figures: KeyFigures): Map<string, KeyFigure> {
  const forces = figures.forces.flatMap((row) => [row.compression, row.rebound]);
  return new Map([...forces, ...figures.margins].map((one) => [one.key, one]));
}
