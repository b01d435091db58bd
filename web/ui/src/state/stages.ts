// Where in the life of a bottle a figure belongs, by the first match of its key.

const rules: [prefix: string, stop: string][] = [
  ['preform.', 'preform'],
  ['inject.', 'preform'],
  ['oven.', 'heat'],
  ['reheat.', 'heat'],
  ['air.', 'cost'],
  ['cost.', 'cost'],
  ['footprint.', 'cost'],
  ['wall.', 'blow'],
  ['section.', 'blow'],
  ['bottle.headspace', 'fill'],
  ['bottle.volume.fill', 'fill'],
  ['bottle.fill.', 'fill'],
  ['bottle.tip.', 'handling'],
  ['bottle.', 'blow'],
  ['blow.', 'blow'],
  ['base.', 'handling'],
  ['shell.', 'handling'],
  ['burst.', 'shelf'],
  ['barrier.', 'shelf'],
  ['oxygen.', 'shelf'],
  ['water.', 'shelf'],
  ['capping.', 'opening'],
  ['pack.pressure.fill', 'fill'],
  ['pack.mass', 'fill'],
  ['hotfill.', 'fill'],
  ['fill.', 'fill'],
  ['closure.', 'opening'],
  ['stack.', 'handling'],
  ['drop.', 'handling'],
  ['load.', 'handling'],
  ['shelf.', 'shelf'],
  ['growth.', 'shelf'],
  ['fillpoint.', 'shelf'],
  ['pack.', 'shelf'],
];

export const order = ['preform', 'heat', 'blow', 'fill', 'shelf', 'handling', 'opening', 'cost', 'other'];

export const stageOf = (key: string): string =>
  rules.find(([prefix]) => key.startsWith(prefix))?.[1] ?? 'other';

const rank = ['fail', 'close', 'not shown', 'not computed', 'pass'];

/** How bad a verdict is: 0 is the worst. */
export const badness = (verdict: string): number => {
  const i = rank.indexOf(verdict);
  return i < 0 ? rank.length : i;
};
