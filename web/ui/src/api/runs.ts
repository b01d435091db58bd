// Full runs: they go on at the server while a connection breaks, and are followed again.
import { ask, json, Offline, refusal, Refused } from './client';
import { events } from './events';
import type { CheckAnswer, CheckRequest, Failed, Progress, RunInfo } from './types';

const first = 500; // ms from the first try in vain to come back to a run to the next; each wait is twice the one before
const most = 4000; // ms

interface Listener {
  onstarted: (id: number) => void;
  onprogress: (p: Progress) => void;
  onaway: (away: boolean) => void; // the server does not answer; or does again
  pause: (ms: number) => Promise<void>; // until the next try
}

/** The events ended before the run did, and before it had a number to ask for. */
export class BrokenOff extends Offline {}

/**
 * Computes a design with every solver; tells how far it is. A server that went
 * away is asked until it is back: it tells what became of the run. Aborting the
 * signal stops listening; {@link withdraw} ends the work.
 */
export async function run(body: CheckRequest, signal: AbortSignal, listener: Listener): Promise<CheckAnswer> {
  let id = 0;
  const own = {
    ...listener,
    onstarted: (n: number) => {
      id = n;
      listener.onstarted(n);
    },
  };
  const start = () => ask('runs', { method: 'POST', body: JSON.stringify(body), signal });
  const follow = () => ask(`runs/${id}/events`, { signal });
  let wait = 0; // a connection that held for a while and breaks is taken up at once
  for (;;) {
    const began = performance.now();
    try {
      const response = await (id === 0 ? start() : follow());
      listener.onaway(false);
      return await listen(response, own);
    } catch (error) {
      if (error instanceof Refused || signal.aborted || id === 0) throw error;
      if (!(error instanceof BrokenOff)) listener.onaway(true);
      else if (performance.now() - began > first) wait = 0;
      if (wait > 0) await listener.pause(wait);
      signal.throwIfAborted();
      wait = Math.min(most, Math.max(first, 2 * wait));
    }
  }
}

async function listen(response: Response, listener: Listener): Promise<CheckAnswer> {
  if (!response.ok) throw await refusal(response);
  if (!response.body) throw new Offline('no events');
  try {
    for await (const { event, data } of events(response.body)) {
      if (event === 'started') listener.onstarted((JSON.parse(data) as { id: number }).id);
      if (event === 'progress') listener.onprogress(JSON.parse(data) as Progress);
      if (event === 'result') return JSON.parse(data) as CheckAnswer;
      if (event === 'failed') throw failure(JSON.parse(data) as Failed);
    }
  } catch (error) {
    if (error instanceof Refused || (error instanceof DOMException && error.name === 'AbortError'))
      throw error;
    throw new BrokenOff(String(error));
  }
  throw new BrokenOff('the run broke off');
}

const failure = (f: Failed): Refused =>
  new Refused(422, [f.message, ...(f.problems ?? []).map((p) => p.message)].join('; '));

/** Ends a run under way. */
export const withdraw = (id: number) => ask(`runs/${id}/withdraw`, { method: 'POST' });

/** The kept runs of a design, newest first. */
export const runsOf = (design: string) =>
  json<{ runs: RunInfo[] | null }>(`runs?design=${encodeURIComponent(design)}`);

/** One run with the text that it computes. */
export const runAt = (id: number) => json<RunInfo>(`runs/${id}`);

/** Takes a run that has ended off the list. */
export const forget = (id: number) => ask(`runs/${id}`, { method: 'DELETE' });
