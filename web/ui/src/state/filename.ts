// Names of design files, as the server takes them.

const ending = '.yaml';

/** A file name made of the name of a design: "Sorrel Lime 1.75 L" gives "sorrel-lime-1.75-l.yaml". */
export function fileNameOf(name: string): string {
  const stem = name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}.]+/gu, '-')
    .replace(/^[-.]+|[-.]+$/g, '')
    .slice(0, 80);
  return stem === '' ? '' : stem + ending;
}

/** What was typed as a file name, with the ending it needs. */
export function ended(text: string): string {
  const t = text.trim();
  return t === '' || t.endsWith(ending) ? t : t.replace(/\.ya?ml$/i, '') + ending;
}

/** The name of a file whose ending was typed over: ".yaml" with more behind it, as in "a.yamlb.yaml". */
export const endsTwice = (text: string): boolean => /\.ya?ml./i.test(text.trim());

/** The letters of a file name before its ending. */
export const stemLength = (name: string): number => name.replace(/\.ya?ml$/i, '').length;

/** The first name of "stem-2.yaml", "stem-3.yaml" … that is not taken. */
export function copyName(name: string, taken: readonly string[]): string {
  const stem = name.replace(/\.ya?ml$/i, '').replace(/-\d+$/, '');
  for (let i = 2; ; i++) {
    const candidate = `${stem}-${i}${ending}`;
    if (!taken.includes(candidate)) return candidate;
  }
}
