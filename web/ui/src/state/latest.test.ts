import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Latest } from './latest';

describe('Latest', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  function slow(log: string[]) {
    let n = 0;
    return new Latest<number>(
      async (signal) => {
        const me = ++n;
        log.push(`start ${me}`);
        await new Promise<void>((resolve, reject) => {
          const t = setTimeout(resolve, 100);
          signal.addEventListener('abort', () => (clearTimeout(t), reject(new Error(`aborted ${me}`))));
        });
        return me;
      },
      (result) => log.push(`done ${result}`),
      (error) => log.push(`failed ${String(error)}`),
    );
  }

  it('runs once for a burst of calls', async () => {
    const log: string[] = [];
    const latest = slow(log);
    latest.ask(30);
    latest.ask(30);
    latest.ask(30);
    await vi.advanceTimersByTimeAsync(200);
    expect(log).toEqual(['start 1', 'done 1']);
  });

  it('lets the newest win and says nothing of the aborted one', async () => {
    const log: string[] = [];
    const latest = slow(log);
    latest.ask(30);
    await vi.advanceTimersByTimeAsync(60);
    latest.ask(30);
    await vi.advanceTimersByTimeAsync(500);
    expect(log).toEqual(['start 1', 'start 2', 'done 2']);
  });

  it('ignores an answer that arrives while a newer call waits', async () => {
    const log: string[] = [];
    const latest = slow(log);
    latest.ask(0);
    await vi.advanceTimersByTimeAsync(90);
    latest.ask(50); // the first answers at 100, before the second starts at 140
    await vi.advanceTimersByTimeAsync(500);
    expect(log).toEqual(['start 1', 'start 2', 'done 2']);
  });

  it('reports a failure, and nothing after drop', async () => {
    const log: string[] = [];
    const latest = new Latest<number>(
      () => Promise.reject(new Error('no')),
      () => log.push('done'),
      (error) => log.push(String(error)),
    );
    latest.ask(0);
    await vi.advanceTimersByTimeAsync(1);
    latest.ask(10);
    latest.drop();
    await vi.advanceTimersByTimeAsync(100);
    expect(log).toEqual(['Error: no']);
  });
});
