/** What went wrong in a computation and why, as print says it; empty when all is well. */
export function statusWords({ status, note }: { status: string; note: string }): string {
  if (status === "converged") return "";
  const what = status === "out of range" ? "Outside the range of the model" : "Not converged";
  return note ? `${what}: ${note}` : `${what}.`;
}
