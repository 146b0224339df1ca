import type { Edit } from "../api/model";

/** One thing the hand did, on its way to the server. */
export interface Parcel {
  /** Its own name among all parcels of all tabs: the server does what comes under one name once. */
  readonly id: string;
  readonly edits: readonly Edit[];
  /** Words for undo: "seat of the rebound stack". */
  readonly note: string;
  /** It went off once, and nobody knows whether it arrived. */
  sent?: true;
}

/** Where the outbox survives the page: localStorage, or a plain map in tests. */
export interface Shelf {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

const pathOf = (edit: Edit): string | undefined => ("set" in edit ? edit.set : undefined);
const onlySets = (parcel: Parcel): boolean => parcel.edits.every((edit) => "set" in edit);

/**
 * What was typed in one job and not yet acknowledged, in order. It lies on the shelf until the server says it has it, so
 * that neither a closed tab nor a killed server loses a keystroke. One parcel is on its way at a time; further values for a
 * path that still waits take its place.
 */
export class Outbox {
  private parcels: Parcel[] = [];
  /** The browser has room for it: it outlives the page. */
  shelved = true;

  constructor(
    private readonly shelf: Shelf,
    private readonly key: string,
    private readonly newId: () => string,
  ) {}

  get size(): number {
    return this.parcels.length;
  }
  get empty(): boolean {
    return this.size === 0;
  }

  add(edits: readonly Edit[], note: string): void {
    const last = this.parcels.at(-1);
    const added: Parcel = { id: this.newId(), edits, note };
    const joins = last !== undefined && !last.sent && onlySets(last) && onlySets(added);
    if (joins && last.note === note) {
      const paths = new Set(edits.map(pathOf));
      this.parcels[this.parcels.length - 1] = { ...last, edits: [...last.edits.filter((edit) => !paths.has(pathOf(edit))), ...edits] };
    } else {
      this.parcels.push(added);
    }
    this.keep();
  }

  /** What goes before all that waits. */
  addFirst(edits: readonly Edit[], note: string): void {
    this.parcels.unshift({ id: this.newId(), edits, note });
    this.keep();
  }

  /** Takes over what another outbox has left on the shelf: it was typed before what is in here. */
  inherit(text: string): void {
    this.parcels.unshift(...readParcels(text, this.newId));
    this.keep();
  }

  /** The parcel to send now. */
  next(): Parcel | undefined {
    return this.parcels[0];
  }
  /** It goes off. What was sent is on the shelf as such before it leaves. */
  sending(parcel: Parcel): void {
    if (parcel.sent) return;
    parcel.sent = true;
    this.keep();
  }
  /** The server has it, or refused it for good. */
  delivered(parcel: Parcel): void {
    this.parcels = this.parcels.filter((one) => one.id !== parcel.id);
    this.keep();
  }

  /** What was typed for this path and is not acknowledged; undefined when nothing is. */
  typed(path: string): string | undefined {
    for (const parcel of [...this.parcels].reverse()) {
      const found = [...parcel.edits].reverse().find((edit) => pathOf(edit) === path);
      if (found && "set" in found) return found.typed;
    }
    return undefined;
  }

  private keep(): void {
    try {
      if (this.empty) this.shelf.removeItem(this.key);
      else this.shelf.setItem(this.key, JSON.stringify(this.parcels));
      this.shelved = true;
    } catch {
      this.shelved = false; // full, or forbidden: it is sent all the same
    }
  }
}

function readParcels(text: string, newId: () => string): Parcel[] {
  try {
    const found: unknown = JSON.parse(text);
    if (!Array.isArray(found)) return [];
    return (found as Partial<Parcel>[]).flatMap((one) =>
      Array.isArray(one.edits) ? [{ ...one, id: one.id ?? newId(), edits: one.edits, note: one.note ?? "" }] : [],
    );
  } catch {
    return []; // another program's text under our key
  }
}
