import { expect, it } from 'vitest';
import { events, type ServerEvent } from './events';

async function read(...pieces: string[]): Promise<ServerEvent[]> {
  const bytes = new TextEncoder();
  const stream = new ReadableStream<Uint8Array>({
    start(control) {
      for (const p of pieces) control.enqueue(bytes.encode(p));
      control.close();
    },
  });
  const out: ServerEvent[] = [];
  for await (const e of events(stream)) out.push(e);
  return out;
}

it('reads events whatever the pieces in which they come', async () => {
  const all = 'event: progress\ndata: {"stage":"blow"}\n\n: a comment\n\ndata: a\ndata: b\n\n';
  const want = [
    { event: 'progress', data: '{"stage":"blow"}' },
    { event: 'message', data: 'a\nb' },
  ];
  expect(await read(all)).toEqual(want);
  for (let i = 1; i < all.length; i++) expect(await read(all.slice(0, i), all.slice(i))).toEqual(want);
});

it('drops what was broken off', async () => {
  expect(await read('event: result\ndata: {"te')).toEqual([]);
});
