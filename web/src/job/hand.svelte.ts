import { tick } from "svelte";
import type { StationId, Stroke } from "../api/model";
import { stepsOf } from "./fields";
import { stations } from "./stations";
import { workbench } from "./workbench.svelte";

export type ValveKey = "piston_valve" | "foot_valve";

/** Where the hand is: the station, and the unit, valve and stroke it works on. The station is in the address. */
class Hand {
  station = $state<StationId>(stationIn(location.hash));
  unit = $state(0);
  valve = $state<ValveKey>("piston_valve");
  stroke = $state<Stroke>("compression");
  /** What lies on the bench: the work, the drawer of jobs, the file as text, or two texts of it side by side. */
  sheet = $state<"work" | "jobs" | "text" | "compare">("work");
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
    this.goTo(workbench.schema.stationOf(path));
    const [first, ...steps] = stepsOf(path);
    if (first?.key === "unit" && first.index !== undefined) this.unit = first.index;
    if (ofStroke === "compression" || ofStroke === "rebound") this.stroke = ofStroke;
    for (const { key } of steps) {
      if (key === "piston_valve" || key === "foot_valve") this.valve = key;
      if (key === "compression" || key === "rebound") this.stroke = key;
    }
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
