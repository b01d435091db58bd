// Designs that were left with changes that are not saved. They stay as they
// are, undo and all, until their name is opened again.
import type { UnitSystem } from '../api/types';
import { OpenDesign } from './design.svelte';

const kept = new Map<string, OpenDesign>();

/** Opens a design, or goes on with the one that was left with changes. */
export function enter(name: string, units: UnitSystem): OpenDesign {
  const left = kept.get(name);
  if (!left) return new OpenDesign(name, units);
  kept.delete(name);
  left.setUnits(units);
  left.tryNow();
  void left.look();
  return left;
}

/** Leaves a design; nothing of what was typed is lost. */
export function leave(design: OpenDesign): void {
  design.close();
  if (design.dirty) kept.set(design.name, design);
}

// Closing the page would lose them.
addEventListener('beforeunload', (e) => {
  if (kept.size > 0) e.preventDefault();
});
