/** An event that comes again in each cycle is listed once, where it first happened, with its count. */
export function toldOnce<E extends { what: string; travel: number }>(events: readonly E[]): (E & { times: number })[] {
  const told = new Map<string, E & { times: number }>();
  for (const event of events) {
    const known = told.get(event.what);
    if (known) known.times += 1;
    else told.set(event.what, { ...event, times: 1 });
  }
  return [...told.values()];
}
