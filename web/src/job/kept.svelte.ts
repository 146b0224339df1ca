import { inherit, keyOf } from "./tab";

type Texts = Readonly<Record<string, string>>;

const kind = "draft";
const behind = " later ";

/**
 * What is being typed and not yet used: an entry of a list, the text of the file. It outlives a change of view, a reload and
 * the end of the browser: each tab keeps its own, and takes over those of tabs that are gone. Where two have typed into one
 * field, the second text comes up when the first is used or discarded.
 */
class Kept {
  private all = $state.raw<Readonly<Record<string, Texts>>>({}); // by job

  at(job: string, name: string): string | undefined {
    return this.all[job]?.[name];
  }

  put(job: string, name: string, text: string): void {
    this.write(job, { ...this.all[job], [name]: text });
  }

  /** It was used, or is not wanted. */
  drop(job: string, name: string): void {
    const { [name]: gone, ...rest } = this.all[job] ?? {};
    if (gone === undefined) return;
    const next = Object.keys(rest).find((one) => one.startsWith(name + behind));
    if (next === undefined) return this.write(job, rest);
    const { [next]: text, ...others } = rest;
    this.write(job, { ...others, [name]: text ?? "" });
  }

  /** What closed tabs have left of a job. */
  inherit(job: string): Promise<void> {
    return inherit(kind, job, (text) => {
      const mine: Record<string, string> = { ...this.all[job] };
      for (const [name, words] of Object.entries(JSON.parse(text) as Texts)) {
        let free = name;
        for (let n = 1; mine[free] !== undefined && mine[free] !== words; ++n) free = `${name}${behind}${n}`;
        mine[free] = words;
      }
      this.write(job, mine);
    });
  }

  private write(job: string, texts: Texts): void {
    this.all = { ...this.all, [job]: texts };
    try {
      if (Object.keys(texts).length === 0) localStorage.removeItem(keyOf(kind, job));
      else localStorage.setItem(keyOf(kind, job), JSON.stringify(texts));
    } catch {
      // the browser has no room: it is there as long as the page is
    }
  }
}

export const kept = new Kept();
