// Server-sent events of a request with a body, which the browser's own reader of events cannot send.

export interface ServerEvent {
  event: string;
  data: string;
}

/** The events of a stream as they come in; a piece without its closing empty line is dropped. */
export async function* events(stream: ReadableStream<Uint8Array>): AsyncGenerator<ServerEvent> {
  const reader = stream.getReader();
  const decoder = new TextDecoder();
  let rest = '';
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      rest += decoder.decode(value, { stream: true });
      const blocks = rest.split(/\r?\n\r?\n/);
      rest = blocks.pop()!;
      for (const block of blocks) {
        const parsed = parse(block);
        if (parsed) yield parsed;
      }
    }
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}

function parse(block: string): ServerEvent | null {
  let event = 'message';
  const data: string[] = [];
  for (const line of block.split(/\r?\n/)) {
    const at = line.indexOf(':');
    if (at <= 0) continue; // a comment, or a field without a value
    const [field, text] = [line.slice(0, at), line.slice(at + 1).replace(/^ /, '')];
    if (field === 'event') event = text;
    if (field === 'data') data.push(text);
  }
  return data.length > 0 ? { event, data: data.join('\n') } : null;
}
