// Places along a line that keep their distance.

/**
 * Places as near to the wanted ones as they can be at a least distance from each other, in the same order;
 * the wanted ones rise. What is too close stands apart evenly round its middle.
 */
export function spread(wanted: readonly number[], gap: number): number[] {
  const blocks: { from: number; n: number; sum: number }[] = []; // sum of where each would have the block begin
  wanted.forEach((at, i) => {
    let block = { from: i, n: 1, sum: at };
    for (;;) {
      const last = blocks.at(-1);
      if (!last || last.sum / last.n + last.n * gap <= block.sum / block.n) break;
      blocks.pop();
      block = { from: last.from, n: last.n + block.n, sum: last.sum + block.sum - block.n * last.n * gap };
    }
    blocks.push(block);
  });
  return blocks.flatMap((b) => Array.from({ length: b.n }, (_, k) => b.sum / b.n + k * gap));
}
