import { tick } from "svelte";
import type { Stroke } from "../api/model";
import { stationOf, stations, type StationId } from "./stations";

export type ValveKey = "piston_valve" | "foot_valve";

/** Where the hand is: the station, and the unit, valve and stroke it works on. The station stands in the address. */
class Hand {
  station = $state<StationId>(stationIn(location.hash));
  unit = $state(0);
  valve = $state<ValveKey>("piston_valve");
  stroke = $state<Stroke>("compression");
  /** What lies on the bench: the work, the drawer of jobs, or the file as text. */
  sheet = $state<"work" | "jobs" | "text">("work");
  /** What the field under the hand means, for the line below the work. */
  hint = $state("");

  constructor() {
    addEventListener("hashchange", () => {
      this.goTo(stationIn(location.hash));
    });
  }

  goTo(station: StationId): void {
    this.station = station;
    this.sheet = "work";
    this.hint = "";
    if (stationIn(location.hash) !== station) location.hash = station;
  }

  /** Brings the field of this path under the hand, wherever on the bench it is. */
  async reach(path: string, ofStroke = ""): Promise<void> {
    this.goTo(stationOf(path));
    const unit = /^unit\[(\d+)\]/.exec(path)?.[1];
    if (unit !== undefined) this.unit = Number(unit);
    if (path.includes("piston_valve")) this.valve = "piston_valve";
    if (path.includes("foot_valve")) this.valve = "foot_valve";
    const stroke = /\.(compression|rebound)\b/.exec(path)?.[1] ?? ofStroke;
    if (stroke === "compression" || stroke === "rebound") this.stroke = stroke;
    await tick();
    nearestField(path)?.focus();
  }
}

function stationIn(hash: string): StationId {
  return stations.find((one) => `#${one.id}` === hash)?.id ?? "rider";
}

/** The input of this path, else one in its table, else one of the nearest table around it. */
function nearestField(path: string): HTMLElement | undefined {
  for (let at = path; at !== ""; at = at.replace(/(\.[^.[]+|\[\d+\]|^[^.[]+)$/, "")) {
    const here = CSS.escape(at);
    const found = document.querySelector<HTMLElement>(`[data-path="${here}"], [data-path^="${here}."], [data-path^="${here}["]`);
    if (!found) continue;
    for (let around = found.closest("details"); around; around = around.parentElement?.closest("details") ?? null) around.open = true;
    return found;
  }
  return undefined;
}

export const hand = new Hand();
