// The commands that every view has.
import { words } from '../words';
import type { Command } from './palette';
import { prefs, type Theme } from './prefs.svelte';
import { toCards, toChecks, toDesigns, toNew } from './router.svelte';

const go = (hash: string) => () => {
  location.hash = hash;
};

/** Places and preferences. */
export function general(): Command[] {
  const w = words.palette;
  const themes: [Theme, string][] = [
    ['light', words.nav.light],
    ['dark', words.nav.dark],
    ['auto', words.nav.auto],
  ];
  return [
    { id: 'designs', label: words.nav.designs, group: w.place, run: go(toDesigns) },
    { id: 'checks', label: words.nav.checks, group: w.place, run: go(toChecks) },
    { id: 'cards', label: words.nav.cards, group: w.place, run: go(toCards) },
    { id: 'new', label: w.newDesign, group: w.action, run: go(toNew) },
    ...(['eu', 'us'] as const).map((system) => ({
      id: `units-${system}`,
      label: w.system(words.nav[`${system}Long`]),
      group: w.action,
      run: () => (prefs.base = system),
    })),
    { id: 'units-own', label: w.ownUnits, group: w.action, run: () => (prefs.choosing = true) },
    ...themes.map(([theme, name]) => ({
      id: `theme-${theme}`,
      label: w.theme(name),
      group: w.action,
      run: () => (prefs.theme = theme),
    })),
  ];
}
