import type { Session } from "../api/model";
import type { Hindrance } from "./delivery.svelte";

/** What stands between the hand and the file, in words: what is so, and what to do about it. */
export interface Notice {
  /** What it is about: a notice that changes its words is still the same one. */
  readonly id: string;
  readonly grave: "stop" | "look";
  readonly title: string;
  readonly rest: string;
  /** Told once and not to be mended: the user can put it away. */
  readonly once?: true;
  readonly todo?: "compare" | "write again" | "other workbench";
}

/** All that a notice can come from. */
export interface Standing {
  readonly connected: boolean;
  /** Changes of this job, and of others, that the program has not acknowledged. */
  readonly waiting: number;
  readonly waitingElsewhere: number;
  readonly hindrance: Hindrance | undefined;
  /** The browser has no room for what waits. */
  readonly exposed: boolean;
  readonly journal: Session["journal"];
  readonly diskChanged: boolean;
  readonly diskMissing: boolean;
  readonly partsChanged: boolean;
}

const changes = (n: number): string => (n === 1 ? "One change is" : `${n} changes are`);

/** Where what was typed is until the journal has it. */
function safety({ waiting, waitingElsewhere, exposed }: Standing): string {
  const n = waiting + waitingElsewhere;
  if (n === 0) return "What you type waits in this browser and is sent by itself.";
  const where = exposed ? "this browser has no room to keep them, so leave this page open" : "they wait in this browser and are sent by themselves";
  return `${changes(n)} not safe yet: ${n === 1 ? where.replace("they wait", "it waits").replace("are sent by themselves", "is sent by itself").replace("keep them", "keep it") : where}.`;
}

const journals: Readonly<Partial<Record<Session["journal"], Omit<Notice, "id">>>> = {
  other_writes: {
    grave: "look",
    title: "Another workbench works in this folder.",
    rest: "Here you can look at the jobs. When the other one ends, this one takes over.",
    todo: "other workbench",
  },
  cannot_write: {
    grave: "look",
    title: "The journal can only be read.",
    rest: "Here you can look at the jobs. To change them, give yourself the right to write in the folder of the journal.",
  },
  in_memory: {
    grave: "stop",
    title: "What you type is lost when this workbench ends.",
    rest: "Its journal cannot be used. Save your jobs to their files.",
  },
  renewed: {
    grave: "look",
    title: "A new journal was begun.",
    rest: "The old one was damaged or taken away. You can undo only what you do from now on. Your job files have not changed.",
    once: true,
  },
  shortened: {
    grave: "stop",
    title: "The journal has lost its last changes.",
    rest: "Compare your jobs with what you remember, and save them. If you have a copy of the journal, it may hold the rest.",
    once: true,
  },
  beside: {
    grave: "look",
    title: "A newer version of this program has worked here.",
    rest: "Its journal is left as it is. What you do here stands in another one.",
    once: true,
  },
};

const hindrances: Readonly<Record<Hindrance, readonly [string, string]>> = {
  journal_full: ["The disk is full.", "Make room on the disk."],
  journal: ["The journal cannot be written.", "Check that the disk is there and has room."],
  read_only: ["This workbench may not write now.", "Close the other workbench."],
};

// what the server says of these for scripts and terminals names files and options
const refusals: Readonly<Record<string, readonly [string, string]>> = {
  ...hindrances,
  disk: ["The file could not be read or written.", "Check that the disk has room, and that you may write there. What you typed is kept."],
};

/** Why something was refused, for the page: in its own words where the server's are not meant for it. */
export const wordsOfRefusal = (code: string, message: string, remedy: string): readonly [string, string] =>
  refusals[code] ?? [message, remedy];

/** The gravest first. */
export function noticesOf(standing: Standing): Notice[] {
  const found: Notice[] = [];
  const { connected, hindrance, journal, waiting, waitingElsewhere } = standing;
  const add = (id: string, notice: Omit<Notice, "id">): void => void found.push({ id, ...notice });
  if (!connected) {
    add("away", { grave: "stop", title: "The program does not answer.", rest: `${safety(standing)} Start the workbench again.` });
  } else if (hindrance) {
    const [title, remedy] = hindrances[hindrance];
    add("hindered", { grave: "stop", title, rest: `${safety(standing)} ${remedy}` });
  } else if (standing.exposed) {
    add("exposed", { grave: "look", title: "This browser keeps nothing.", rest: safety(standing) });
  } else if (waitingElsewhere > 0 && waiting === 0) {
    add("elsewhere", { grave: "look", title: "Another job waits to be kept.", rest: safety(standing) });
  }
  if (standing.diskMissing) {
    add("file", { grave: "look", title: "The file of this job is gone.", rest: "Your text is kept here. Write the file again, or put it back.", todo: "write again" });
  } else if (standing.diskChanged) {
    add("file", { grave: "look", title: "Another program has changed the file.", rest: "Look at both texts, and choose one. Undo brings the other one back.", todo: "compare" });
  }
  const told = journals[journal];
  if (told) add(`journal ${journal}`, told);
  if (standing.partsChanged) {
    add("parts", { grave: "look", title: "Another program has changed a parts file.", rest: "The figures and the parts in hand follow it.", once: true });
  }
  return found.sort((a, b) => Number(b.grave === "stop") - Number(a.grave === "stop"));
}
