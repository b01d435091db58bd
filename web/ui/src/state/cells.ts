// Cells of a table of the design: where they are and how they are written.

/** "z mm" is the column z in mm. */
function split(header: string): { key: string; unit: string } {
  const at = header.indexOf(' ');
  return at < 0
    ? { key: header, unit: '' }
    : { key: header.slice(0, at), unit: header.slice(at + 1).replace(/^\((.*)\)$/, '$1') };
}

/** The path of a cell: "bottle.profile[3].r"; of an entry of a plain list: "bottle.planes[1]". */
export function cellPath(table: string, header: string, row: number): string {
  const { key } = split(header);
  const plain = table.split('.').at(-1) === key;
  return plain ? `${table}[${row}]` : `${table}[${row}].${key}`;
}

/** What was typed, with the unit of its column when it is a bare number. */
export function cellText(header: string, typed: string): string {
  const text = typed.trim();
  const { unit } = split(header);
  return unit !== '' && /^[+\-\u2212]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? `${text} ${unit}` : text;
}

/** A table as rows parted by tabs, its headings first, with one cell changed. */
export const withCell = (
  table: { columns: readonly string[]; rows: readonly (readonly string[])[] },
  row: number,
  column: number,
  text: string,
): string =>
  [table.columns, ...table.rows.map((r, i) => r.map((c, j) => (i === row && j === column ? text : c)))]
    .map((cells) => cells.join('\t'))
    .join('\n');
