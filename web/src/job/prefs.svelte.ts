import type { System } from "../units";

type Theme = "light" | "dark";

/** How this person likes to read the page. Kept in the browser, not in the job. */
class Prefs {
  system = $state<System>(read("system", ["metric", "imperial"]) ?? "metric");
  /** Unset: as the machine is set. */
  theme = $state<Theme | undefined>(read("theme", ["light", "dark"]));

  get dark(): boolean {
    return (this.theme ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light")) === "dark";
  }

  setSystem(system: System): void {
    this.system = system;
    localStorage.setItem("shimwright.system", system);
  }

  setTheme(theme: Theme): void {
    this.theme = theme;
    localStorage.setItem("shimwright.theme", theme);
    this.dress();
  }

  dress(): void {
    if (this.theme) document.documentElement.dataset["theme"] = this.theme;
  }
}

function read<T extends string>(name: string, words: readonly T[]): T | undefined {
  const kept = localStorage.getItem(`shimwright.${name}`);
  return words.find((word) => word === kept);
}

export const prefs = new Prefs();
