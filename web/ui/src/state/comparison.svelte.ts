// The design that every number is held against, and the difference to it.
import * as api from '../api/client';
import type { Difference, UnitSystem } from '../api/types';
import { Latest } from './latest';

export interface Baseline {
  file: string;
  text: string | null; // null is the file as it is on disk
  title: string;
}

const noticed = 150; // ms that a difference may lag behind before it is taken away

/** The baseline stays while the page is open, whichever design is looked at. */
class Pin {
  baseline = $state.raw<Baseline | null>(null);
}
export const pin = new Pin();

interface Wanted {
  text: string;
  file: string;
  units: UnitSystem;
  full: boolean;
}

export class Comparison {
  difference = $state.raw<Difference | null>(null);
  fault = $state('');
  pending = $state(false);
  private wanted: Wanted | null = null;
  private old: ReturnType<typeof setTimeout> | undefined;
  private readonly queue = new Latest<Difference | null>(
    (signal) => this.ask(signal),
    (difference) => {
      this.difference = difference;
      this.fault = '';
      this.pending = false;
    },
    (error) => {
      this.difference = null;
      this.fault = error instanceof Error ? error.message : String(error);
      this.pending = false;
    },
  );

  /** Asks for the difference of a text to the baseline; null asks for none. */
  against(wanted: Wanted | null): void {
    this.wanted = wanted;
    if (wanted === null) {
      this.queue.drop();
      this.difference = null;
      this.fault = '';
      this.pending = false;
      return;
    }
    this.pending = true;
    clearTimeout(this.old);
    this.old = setTimeout(() => {
      if (this.pending) this.difference = null; // that of another text or run
    }, noticed);
    this.queue.ask(40);
  }

  private async ask(signal: AbortSignal): Promise<Difference | null> {
    const { baseline } = pin;
    const { wanted } = this;
    if (!baseline || !wanted) return null;
    return api.compare(
      {
        baseline: { name: baseline.file, ...(baseline.text !== null && { text: baseline.text }) },
        variant: { name: wanted.file, text: wanted.text },
        units: wanted.units,
        full: wanted.full,
      },
      signal,
    );
  }

  close(): void {
    clearTimeout(this.old);
    this.queue.drop();
  }
}
