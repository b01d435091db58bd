// The figures whose reasons are looked at, one behind the other, and where the focus goes meanwhile.
import { tick } from 'svelte';

const rowOf = (key: string) => document.querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`);

export class Trail {
  keys = $state.raw<string[]>([]); // the last one is shown
  private from = '';

  get open(): boolean {
    return this.keys.length > 0;
  }

  /** Shows why a figure of the board is what it is; asked again, it shuts. */
  async ask(key: string): Promise<void> {
    if (this.keys.length === 1 && this.keys[0] === key) {
      this.shut();
      return;
    }
    this.from = key;
    this.keys = [key];
    await tick();
    rowOf(key)?.scrollIntoView({ block: 'nearest' });
    document.getElementById('why')?.focus();
  }

  shut(): void {
    this.keys = [];
    (rowOf(this.from) ?? document.getElementById('board'))?.focus();
  }

  walk(to: string[]): void {
    this.keys = to;
    document.getElementById('why')?.focus(); // what was clicked goes with the figure it belonged to
  }
}
