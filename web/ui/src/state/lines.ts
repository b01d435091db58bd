// The lines in which two texts differ, paired: [theirs, ours].

/** At most the given number of pairs; a line without partner has an empty one. */
export function differing(theirs: string, ours: string, most = 200): [string, string][] {
  const a = theirs.split('\n');
  const b = ours.split('\n');
  const common = longest(a, b);
  const out: [string, string][] = [];
  let i = 0;
  let j = 0;
  for (const [ci, cj] of [...common, [a.length, b.length] as const]) {
    const left = a.slice(i, ci);
    const right = b.slice(j, cj);
    for (let k = 0; k < Math.max(left.length, right.length); k++) out.push([left[k] ?? '', right[k] ?? '']);
    i = ci + 1;
    j = cj + 1;
  }
  return out.slice(0, most);
}

/** The index pairs of a longest common subsequence of lines. */
function longest(a: string[], b: string[]): [number, number][] {
  const width = b.length + 1;
  const best = new Uint16Array((a.length + 1) * width);
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      best[i * width + j] =
        a[i] === b[j]
          ? best[(i + 1) * width + j + 1]! + 1
          : Math.max(best[(i + 1) * width + j]!, best[i * width + j + 1]!);
    }
  }
  const out: [number, number][] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    if (a[i] === b[j]) out.push([i++, j++]);
    else if (best[(i + 1) * width + j]! >= best[i * width + j + 1]!) i++;
    else j++;
  }
  return out;
}
