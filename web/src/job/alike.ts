/**
 * The new document, with every part that says the same as in the old one taken from there: what is drawn of a part that
 * stayed is then known to be drawn already. Neither document is written to.
 */
export function alike<T>(old: T | undefined, fresh: T): T {
  return shared(old, fresh) as T;
}

function shared(old: unknown, fresh: unknown): unknown {
  if (old === fresh || typeof old !== "object" || typeof fresh !== "object" || old === null || fresh === null) return fresh;
  if (Array.isArray(old) !== Array.isArray(fresh)) return fresh;
  const [was, now] = [old as Record<string, unknown>, fresh as Record<string, unknown>];
  const keys = Object.keys(now);
  let same = keys.length === Object.keys(was).length;
  let some = false;
  const parts = keys.map((key) => {
    if (!Object.hasOwn(was, key)) {
      same = false;
      return now[key];
    }
    const part = shared(was[key], now[key]);
    if (part === was[key]) some ||= typeof part === "object" && part !== null;
    else same = false;
    return part;
  });
  if (same) return old;
  if (!some) return fresh;
  return Array.isArray(fresh) ? parts : Object.fromEntries(keys.map((key, index) => [key, parts[index]]));
}
