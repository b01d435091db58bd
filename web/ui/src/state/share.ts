// Structural sharing: a new answer takes over every part of the last one that
// is the same, so that what did not change is not drawn again.

/** The new value, with each part that equals the old one replaced by the old one. Plain JSON only. */
export function share<T>(old: unknown, now: T): T {
  if (Object.is(old, now)) return now;
  if (typeof old !== 'object' || typeof now !== 'object' || old === null || now === null) return now;
  if (Array.isArray(old) !== Array.isArray(now)) return now;
  const before = old as Record<string, unknown>;
  const after = now as Record<string, unknown>;
  const keys = Object.keys(after);
  let same = keys.length === Object.keys(before).length;
  for (const key of keys) {
    if (!(key in before)) {
      same = false;
      continue;
    }
    const part = share(before[key], after[key]);
    after[key] = part;
    if (!Object.is(part, before[key])) same = false;
  }
  return same ? (old as T) : now;
}
