// The commands of the page, found by typing.

export interface Command {
  id: string;
  label: string;
  group: string; // action, input, figure, place
  hint?: string; // value or key
  keywords?: string;
  run: () => void;
}

/**
 * The commands that hold every word of the wanted text, the best first: a label
 * that begins with it, then one with a word that does, then the rest as given.
 */
export function found(commands: readonly Command[], wanted: string, most = 60): Command[] {
  const text = wanted.trim().toLowerCase();
  if (text === '') return commands.slice(0, most);
  const words = text.split(/\s+/);
  const rank = (c: Command): number => {
    const label = c.label.toLowerCase();
    if (label.startsWith(text)) return 0;
    if (words.every((w) => ` ${label}`.includes(` ${w}`))) return 1;
    return words.every((w) => label.includes(w)) ? 2 : 3;
  };
  return commands
    .filter((c) => {
      const hay = `${c.label} ${c.group} ${c.keywords ?? ''}`.toLowerCase();
      return words.every((w) => hay.includes(w));
    })
    .map((c, i) => ({ c, i, rank: rank(c) }))
    .toSorted((a, b) => a.rank - b.rank || a.i - b.i)
    .slice(0, most)
    .map(({ c }) => c);
}
