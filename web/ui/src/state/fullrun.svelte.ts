// The full run of a design: under way, its fault, its last result. Results are
// kept by text, so that undo brings them back.
import { Offline } from '../api/client';
import { BrokenOff, run, withdraw } from '../api/runs';
import type { Board, CheckAnswer, Progress, UnitSystem } from '../api/types';
import { words } from '../words';

const keep = 4; // results

export class FullRun {
  running = $state.raw<Progress | null>(null);
  fault = $state(''); // why the last one gave no blown wall
  away = $state(false); // the server does not answer while it is under way
  unreached = false; // the last one found no server
  held = $state(false); // the reader stopped it: it does not start by itself until the next change
  last = $state.raw<{ text: string; answer: CheckAnswer } | null>(null);

  private kept = new Map<string, CheckAnswer>();
  private control: AbortController | undefined;
  private id = 0;
  private goOn: () => void = () => undefined; // ends the pause between two tries

  /** The full result of a text that has been run before; it is the last one from then on. */
  of(units: UnitSystem, text: string): CheckAnswer | undefined {
    const answer = this.kept.get(`${units} ${text}`);
    if (answer) this.keep(units, text, answer);
    return answer;
  }

  private keep(units: UnitSystem, text: string, answer: CheckAnswer): void {
    const mark = `${units} ${text}`;
    this.kept.delete(mark);
    this.kept.set(mark, answer);
    if (this.kept.size > keep) this.kept.delete(this.kept.keys().next().value!);
    this.last = { text, answer };
  }

  /** A change has come: what was said of the run before is void. */
  changed(): void {
    this.withdraw();
    this.fault = '';
    this.held = false;
  }

  /** Computes a text with every solver; null when it was withdrawn or failed. */
  async start(name: string, text: string, units: UnitSystem): Promise<CheckAnswer | null> {
    const control = new AbortController();
    this.control = control;
    this.id = 0;
    this.running = { stage: '', fraction: 0 };
    this.fault = '';
    this.held = false;
    this.away = false;
    this.unreached = false;
    try {
      const answer = await run({ name, text, edits: [], units }, control.signal, {
        onstarted: (id) => {
          if (this.control === control) this.id = id;
          else void withdraw(id).catch(() => undefined); // asked to stop before its number was known
        },
        onprogress: (p) => {
          if (this.control === control) this.running = p;
        },
        onaway: (away) => {
          if (this.control === control) this.away = away;
        },
        pause: (ms) => this.pause(ms),
      });
      if (control.signal.aborted) return null;
      this.keep(units, text, answer);
      return answer;
    } catch (error) {
      if (!control.signal.aborted) {
        this.unreached = error instanceof Offline && !(error instanceof BrokenOff);
        if (!this.unreached) this.fault = error instanceof BrokenOff ? words.run.broken : told(error);
      }
      return null;
    } finally {
      if (this.control === control) {
        this.control = undefined;
        this.running = null;
        this.away = false;
      }
    }
  }

  /** Asks a server that was away again, now. */
  tryNow(): void {
    this.goOn();
  }

  private pause(ms: number): Promise<void> {
    return new Promise((resolve) => {
      const timer = setTimeout(resolve, ms);
      this.goOn = () => (clearTimeout(timer), resolve());
    });
  }

  /** Stops it on the reader's word. */
  cancel(): void {
    this.held = true;
    this.withdraw();
  }

  withdraw(): void {
    if (this.control && this.id > 0) void withdraw(this.id).catch(() => undefined);
    this.control?.abort();
    this.control = undefined;
    this.running = null;
    this.away = false;
    this.goOn();
  }
}

export const told = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Why a full run has no blow. */
export const blowFault = (board: Board): string =>
  (board.problems ?? []).find((p) => p.stage === 'blow')?.reason ?? words.run.noBlow;
