import type { Edit } from "../api/model";

/** One thing the hand did, on its way to the server. */
export interface Parcel {
  readonly edits: readonly Edit[];
  /** Words for undo: "seat of the rebound stack". */
  readonly note: string;
  /** The job's serial when it was sent; absent: not sent yet. */
  sentOn?: number;
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
 * What was typed and not yet acknowledged, in order. It lies on the shelf until the server says it has it, so that
 * neither a closed tab nor a killed server loses a keystroke. One parcel is on its way at a time; further values for a
 * path that still waits take its place.
 */
export class Outbox {
  private parcels: Parcel[];

  constructor(
    private readonly shelf: Shelf,
    private readonly key: string,
  ) {
    this.parcels = readParcels(shelf.getItem(key));
  }

  get size(): number {
    return this.parcels.length;
  }
  get empty(): boolean {
    return this.size === 0;
  }

  add(edits: readonly Edit[], note: string): void {
    const last = this.parcels.at(-1);
    const added: Parcel = { edits, note };
    const joins = last !== undefined && last.sentOn === undefined && onlySets(last) && onlySets(added);
    if (joins && last.note === note) {
      const paths = new Set(edits.map(pathOf));
      this.parcels[this.parcels.length - 1] = {
        edits: [...last.edits.filter((edit) => !paths.has(pathOf(edit))), ...edits],
        note,
      };
    } else {
      this.parcels.push(added);
    }
    this.keep();
  }

  /** The parcel to send now, marked as sent while the job was at this serial. */
  next(serial: number): Parcel | undefined {
    const first = this.parcels[0];
    if (first === undefined) return undefined;
    first.sentOn = serial;
    this.keep();
    return first;
  }

  /** The server has the first parcel, or refused it for good. */
  delivered(): void {
    this.parcels.shift();
    this.keep();
  }

  /**
   * After a silence: was the first parcel taken before the server went? Values may be sent twice; a shim may not be added
   * twice, so that what moves parts counts as taken when the server's last step has its words and its serial went on.
   */
  settle(state: { serial: number; undo_note: string }): void {
    const first = this.parcels[0];
    if (first?.sentOn === undefined) return;
    const taken = state.serial > first.sentOn && state.undo_note === first.note;
    if (taken && !onlySets(first)) this.parcels.shift();
    else delete first.sentOn;
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
    if (this.empty) this.shelf.removeItem(this.key);
    else this.shelf.setItem(this.key, JSON.stringify(this.parcels));
  }
}

function readParcels(text: string | null): Parcel[] {
  if (text === null) return [];
  try {
    const found: unknown = JSON.parse(text);
    return Array.isArray(found) ? (found as Parcel[]) : [];
  } catch {
    return []; // another program's text under our key
  }
}
