import type { StackResult, StackView } from "../../api/model";
import type { Measures } from "../../units/measures";

/** What the load does, in words. Null: nothing is loaded. */
export function loadWords(view: StackView | null, measures: Measures): string {
  if (!view) return "At rest.";
  const { pressure_difference, speed, thickness, flow } = measures;
  const lift = (si: number): string => thickness.text(Math.max(0, si));
  const words = [
    `At ${pressure_difference.text(view.pressure)}${view.speed ? `, ${speed.text(view.speed)}` : ""}: lift ${lift(view.lift_at_seat)} at the seat, ${lift(view.lift_at_rim)} at the rim.`,
  ];
  const past = view.bleed_flow ?? 0;
  if (view.stack_flow !== undefined && (view.stack_flow > 0 || past > 0))
    words.push(`Flow through the stack ${flow.text(view.stack_flow)}, through bleeds ${flow.text(past)}.`);
  if (view.outcome.status !== "converged") words.push(view.outcome.note || `The solver ended with "${view.outcome.status}".`);
  return words.join(" ");
}

/** The lift at the seat, to stand beside it in the picture. */
export function liftWords(view: StackView | null, measures: Measures): string {
  if (!view) return "";
  return view.lift_at_seat > 0 ? `lift ${measures.thickness.text(view.lift_at_seat)}` : "closed";
}

/** The disc with the highest stress: under this load, or else as the document has it. */
export function worstDisc(stack: StackResult | undefined, view: StackView | null): number {
  return view ? view.discs.reduce((a, b) => (b.highest_stress > a.highest_stress ? b : a)).number : (stack?.worst_disc ?? 0);
}

/** What a row says beside its text of the group of discs that it is. `narrow`: where there is room for few words. */
export function remarkOf(stack: StackResult, group: number, view: StackView | null, measures: Measures, narrow: boolean): string {
  const { count, first } = stack.geometry.groups[group]!;
  const discs = stack.geometry.discs.slice(first - 1, first - 1 + count);
  const worst = worstDisc(stack, view);
  const words: string[] = [];
  if (worst >= first && worst < first + count)
    words.push(view ? `${narrow ? "highest" : "highest stress"} ${measures.stress.text(view.discs[worst - 1]!.highest_stress)}` : "highest stress");
  if (discs.every((d) => !d.carries)) words.push("no load");
  else if (discs.some((d) => d.ring)) words.push("ring shim");
  return words.join(", ");
}
