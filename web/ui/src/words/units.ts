// Words of the choice of units.
const names: Record<string, string> = {
  wall: 'Wall thickness',
  pressure: 'Pressure: gauge, absolute, difference',
  vacuum: 'Vacuum of the pack',
  stress: 'Stress, modulus',
  temperature: 'Temperature and its difference',
  volume: 'Volume of bottle and drink',
  output: 'Output of the machine',
  fraction: 'Share, percentage',
  'price-per-1000': 'Price of 1000 packs',
  'normal-volume': 'Normal volume of air',
  'energy-per-normal-volume': 'Energy per normal volume of air',
  'solubility-change-per-concentration': 'Solubility change with sugar',
};

export const unitWords = {
  title: 'Units',
  base: 'All quantities',
  what: 'Each quantity is shown in the units of the side you choose here, or in one of your own. Your design keeps every number as it was typed. This browser remembers the choice.',
  rows: 'One quantity each',
  find: 'Find a quantity or a unit',
  none: (text: string) => `No quantity and no unit is called “${text}”.`,
  as: (side: string, symbol: string) => `as ${side}: ${symbol}`,
  follows: (family: string, symbol: string) => `with ${family.replace(/:.*/, '').toLowerCase()}: ${symbol}`,
  own: 'your own',
  also: (list: string) => `then ${list}`,
  reset: (side: string) => `All as ${side}`,
  some: (n: number) => (n === 1 ? '1 unit of your own' : `${n} units of your own`),
  nothing: 'No unit of your own',
  close: 'Close',
  name: (key: string) => names[key] ?? key[0]!.toUpperCase() + key.slice(1).replaceAll('-', ' '),
};
