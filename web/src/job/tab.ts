import { randomId } from "./random_id";

/** This page in this browser, while it is open. */
export const tab = randomId();

const lockOf = (one: string): string => `shimwright.tab.${one}`;
const channelName = "shimwright.tabs";
const answerTime = 250; // ms in which an open tab says that it is there, where there are no locks to ask

const locks = navigator.locks as LockManager | undefined; // a page that comes over an open network gets none

// held for as long as the page is there, however it ends
void locks?.request(lockOf(tab), () => new Promise<never>(() => undefined));

const channel = new BroadcastChannel(channelName);
const answers = new Set<string>();
channel.onmessage = ({ data }: MessageEvent<{ ask?: true; here?: string }>) => {
  if (data.ask) channel.postMessage({ here: tab });
  if (data.here) answers.add(data.here);
};

/** The other tabs that are open now. */
async function others(): Promise<ReadonlySet<string>> {
  if (locks) {
    const { held = [] } = await locks.query();
    return new Set(held.flatMap(({ name }) => (name?.startsWith(lockOf("")) ? [name.slice(lockOf("").length)] : [])));
  }
  answers.clear();
  channel.postMessage({ ask: true });
  await new Promise((resolve) => setTimeout(resolve, answerTime));
  return new Set(answers);
}

/** What this tab keeps of one kind for one job: each tab under a key of its own, so that none writes over another's. */
export const keyOf = (kind: string, job: string, of = tab): string => `shimwright.${kind}.${job}.${of}`;

const jobAndTab = (kind: string, key: string): readonly [string, string] | undefined => {
  if (!key.startsWith(`shimwright.${kind}.`)) return undefined;
  const [job = "", of = "", ...rest] = key.slice(`shimwright.${kind}.`.length).split(".");
  return rest.length === 0 ? [job, of] : undefined;
};

/** The jobs for which anything of this kind is kept, by whichever tab. */
export function jobsWith(kind: string): string[] {
  const found = Object.keys(localStorage).flatMap((key) => jobAndTab(kind, key) ?? []);
  return [...new Set(found.filter((_, index) => index % 2 === 0))];
}

/** Hands over what tabs that are gone have kept of this kind for a job, and then lets go of it. */
export async function inherit(kind: string, job: string, take: (text: string) => void): Promise<void> {
  const work = async (): Promise<void> => {
    const theirs = (): string[] => Object.keys(localStorage).filter((key) => jobAndTab(kind, key)?.[0] === job && key !== keyOf(kind, job));
    if (theirs().length === 0) return;
    const open = await others();
    for (const key of theirs().sort()) {
      if (open.has(jobAndTab(kind, key)?.[1] ?? "")) continue;
      const text = localStorage.getItem(key);
      if (text !== null) take(text);
      localStorage.removeItem(key);
    }
  };
  // one heir at a time
  await (locks ? locks.request("shimwright.heir", work) : work());
}
