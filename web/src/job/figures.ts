import type { Finding, PostResult, ResultDocument, Severity, StackResult, Stroke, UnitResult } from "../api/model";
import { format, type Kind } from "../units";

/** One of the few numbers that stay in view: what it is, its value, and whether the findings let the build keep it. */
export interface Figure {
  /** Stable over edits, so that before and after find each other. */
  readonly key: string;
  readonly label: string;
  /** The same for a strip of a phone. */
  readonly short: string;
  readonly kind: Kind;
  readonly si: number;
  /** Where it comes from: "piston valve, rebound, shim 3". */
  readonly where: string;
  /** The pressure it is at, of a stack by itself [Pa]. */
  readonly pressure?: number;
  readonly verdict: Severity;
}

/** Force at one of the four speeds, both ways. */
export interface ForceRow {
  readonly speed: number;
  readonly forces: Readonly<Record<Stroke, Figure>>;
}

export interface Figures {
  readonly forces: readonly ForceRow[];
  readonly margins: readonly Figure[];
}

const none: Figures = { forces: [], margins: [] };

/** The figures of one unit, or of the lone stack of a file. */
export function figuresOf(result: ResultDocument | undefined, unitIndex: number): Figures {
  if (!result) return none;
  const unit = result.units[unitIndex];
  if (unit) {
    const findings = result.findings.filter((one) => one.place.unit === unit.name);
    return {
      forces: forceRows(unit),
      margins: [...cavitation(unit, findings), ...worstShim(unit, findings), ...leastThread(unit, findings)],
    };
  }
  if (!result.stack) return none;
  return { forces: [], margins: [...lifts(result.stack), ...shim(result.stack, "", result.findings)] };
}

/** The page judges nothing itself: what the findings of these codes say at their gravest. */
function verdict(findings: readonly Finding[], codes: readonly string[], stroke?: Stroke): Severity {
  const found = findings.filter((one) => codes.includes(one.code) && (!stroke || !one.place.stroke || one.place.stroke === stroke));
  if (found.some((one) => one.severity === "stop")) return "stop";
  return found.some((one) => one.severity === "look") ? "look" : "fine";
}

function forceRows(unit: UnitResult): ForceRow[] {
  return (unit.force?.key_forces ?? []).map((row) => {
    const force = (stroke: Stroke, cavitated: boolean): Figure => ({
      key: `${stroke} at ${row.speed}`,
      label: stroke,
      short: stroke,
      kind: "force",
      si: row[stroke],
      where: cavitated ? "cavitation" : "",
      verdict: cavitated ? "stop" : "fine",
    });
    return {
      speed: row.speed,
      forces: {
        compression: force("compression", row.compression_cavitated),
        rebound: force("rebound", row.rebound_cavitated),
      },
    };
  });
}

function cavitation(unit: UnitResult, findings: readonly Finding[]): Figure[] {
  const codes = { compression: ["F201", "F203"], rebound: ["F202", "F203"] };
  return (unit.force?.cavitation ?? []).map((one) => ({
    key: `cavitation ${one.stroke}`,
    label: `Margin to cavitation, ${one.stroke}`,
    short: one.stroke === "compression" ? "cav. in" : "cav. out",
    kind: "pressure difference",
    si: one.margin_at_working_speed,
    where: one.chamber,
    verdict: verdict(findings, codes[one.stroke], one.stroke),
  }));
}

function shim(stack: StackResult, place: string, findings: readonly Finding[]): Figure[] {
  const si = stack.fatigue_margin ?? stack.yield_margin;
  const hardest = stack.points?.at(-1);
  if (si === undefined) return hardest ? [stress(hardest, place)] : [];
  return [
    {
      key: "worst shim",
      label: stack.fatigue_margin === undefined ? "Worst shim, margin to yield" : "Worst shim, margin to fatigue",
      short: "worst shim",
      kind: "number",
      si,
      where: [place, `shim ${stack.worst_disc}`].filter(Boolean).join(", "),
      verdict: verdict(findings, ["F301", "F302", "F303"]),
    },
  ];
}

/** Without a stated strength there is no margin: the stress itself is told. */
function stress(point: StackResult["points"][number], place: string): Figure {
  return {
    key: "worst shim",
    label: "Worst shim, stress",
    short: "worst shim",
    kind: "stress",
    si: point.highest_stress,
    where: [place, `shim ${point.worst_disc}`].filter(Boolean).join(", "),
    pressure: point.pressure,
    verdict: "fine",
  };
}

/** The worst of several places: the least margin, where there are margins, else the highest stress. */
function worst(figures: Figure[]): Figure[] {
  const margins = figures.filter((one) => one.kind === "number");
  const [first, ...rest] = margins.length > 0 ? margins : figures;
  if (!first) return [];
  const isWorse = (one: Figure, than: Figure): boolean => (one.kind === "stress" ? one.si > than.si : one.si < than.si);
  return [rest.reduce((found, one) => (isWorse(one, found) ? one : found), first)];
}

function worstShim(unit: UnitResult, findings: readonly Finding[]): Figure[] {
  return worst(
    unit.valves.flatMap((valve) =>
      valve.directions.flatMap((direction) =>
        direction.stack ? shim(direction.stack, `${valve.place}, ${direction.stroke}`, findings) : [],
      ),
    ),
  );
}

function thread(post: PostResult, place: string, findings: readonly Finding[]): Figure[] {
  if (!post.thread) return [];
  return [
    {
      key: "engaged thread",
      label: "Turns of thread engaged",
      short: "thread",
      kind: "number",
      si: post.thread.engaged_turns,
      where: `${place}, of ${format(post.thread.nut_turns, "number", "metric")}`,
      verdict: verdict(findings, ["F101", "F102"]),
    },
  ];
}

function leastThread(unit: UnitResult, findings: readonly Finding[]): Figure[] {
  return worst(
    unit.valves.flatMap((valve) =>
      valve.post
        ? thread(valve.post, valve.place, findings.filter((one) => one.place.valve === valve.place))
        : [],
    ),
  );
}

const noLift = 1e-10; // the width of an atom: less is what contact is solved to [m]

function lifts(stack: StackResult): Figure[] {
  return stack.points.slice(0, 4).map((point, index) => ({
    key: `lift ${index}`,
    label: "Lift at the seat",
    short: "lift",
    kind: "length",
    si: Math.abs(point.lift_at_seat) < noLift ? 0 : point.lift_at_seat,
    where: "",
    pressure: point.pressure,
    verdict: "fine",
  }));
}

/** Every figure of a set, by its key. */
export function byKey(figures: Figures): Map<string, Figure> {
  const forces = figures.forces.flatMap((row) => [row.forces.compression, row.forces.rebound]);
  return new Map([...forces, ...figures.margins].map((one) => [one.key, one]));
}
