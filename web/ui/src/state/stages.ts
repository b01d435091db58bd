// Where in the life of a bottle the stages of the computation stand.
import type { Board } from '../api/types';

const stops: Record<string, string> = {
  preform: 'preform',
  inject: 'preform',
  oven: 'heat',
  reheat: 'heat',
  ovenheat: 'heat',
  bottle: 'blow',
  blow: 'blow',
  wall: 'blow',
  pressure: 'fill',
  hotfill: 'fill',
  stress: 'shelf',
  growth: 'shelf',
  shelf: 'shelf',
  strength: 'handling',
  shell: 'handling',
  stack: 'handling',
  drop: 'handling',
  closure: 'opening',
  capping: 'opening',
  air: 'cost',
  cost: 'cost',
  footprint: 'recovery',
};

export const order = [
  'preform',
  'heat',
  'blow',
  'fill',
  'shelf',
  'handling',
  'opening',
  'recovery',
  'cost',
  'other',
];

/** The stop of the life at which a stage of the computation stands. */
export const stopOf = (stage: string): string => stops[stage] ?? 'other';

/**
 * The stop of each figure of a board by key; a figure that was left out stands
 * where its stage does. Stages names those of limits that nothing was computed for.
 */
export function stopsOf(
  board: Board | null,
  stages: Record<string, string> | null = null,
): (key: string) => string {
  const found = new Map<string, string>();
  for (const [key, stage] of Object.entries(stages ?? {})) if (stage) found.set(key, stopOf(stage));
  for (const p of board?.problems ?? []) if (p.stage) found.set(p.key, stopOf(p.stage));
  for (const f of board?.figures ?? []) found.set(f.key, stopOf(f.stage));
  return (key) => found.get(key) ?? 'other';
}

/** The stops at which a board has something, in the order of the life. */
export function present(board: Board | null, stages: Record<string, string> | null = null): string[] {
  const stopOf = stopsOf(board, stages);
  const here = new Set([
    ...(board?.figures ?? []).map((f) => stopOf(f.key)),
    ...(board?.verdicts ?? []).map((v) => stopOf(v.figure)),
  ]);
  return order.filter((stop) => here.has(stop));
}

const rank = ['fail', 'close', 'not shown', 'not computed', 'pass'];

/** How bad a verdict is: 0 is the worst. */
export const badness = (verdict: string): number => {
  const i = rank.indexOf(verdict);
  return i < 0 ? rank.length : i;
};
