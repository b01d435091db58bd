// Undo and redo of whole states. Changes of one group (one visit to a field)
// are one step.

export interface Step<T> {
  state: T;
  label: string; // what led to this state, in words
  group: number;
}

export interface History<T> {
  past: Step<T>[]; // never empty; its last is the present
  future: Step<T>[]; // its last is the next to redo
}

export const begin = <T>(state: T): History<T> => ({ past: [{ state, label: '', group: -1 }], future: [] });

export const present = <T>(h: History<T>): T => h.past.at(-1)!.state;

/** The state before the step that led to the present one; the present one at the start. */
export const before = <T>(h: History<T>): T => (h.past.at(-2) ?? h.past.at(-1)!).state;

export const canUndo = <T>(h: History<T>): boolean => h.past.length > 1;
export const canRedo = <T>(h: History<T>): boolean => h.future.length > 0;

/** Adds a state; it replaces the present one when both belong to the same group. */
export function record<T>(h: History<T>, step: Step<T>): History<T> {
  const last = h.past.at(-1)!;
  if (Object.is(last.state, step.state)) return h;
  const kept = last.group === step.group && h.past.length > 1 ? h.past.slice(0, -1) : h.past;
  // A group that came back to where it began leaves no step behind.
  if (kept !== h.past && Object.is(kept.at(-1)!.state, step.state)) return { past: kept, future: [] };
  return { past: [...kept, step], future: [] };
}

export function undo<T>(h: History<T>): History<T> {
  if (!canUndo(h)) return h;
  return { past: h.past.slice(0, -1), future: [...h.future, h.past.at(-1)!] };
}

export function redo<T>(h: History<T>): History<T> {
  const next = h.future.at(-1);
  if (!next) return h;
  return { past: [...h.past, next], future: h.future.slice(0, -1) };
}
