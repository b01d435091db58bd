// One request at a time, the newest wins: a new one waits a moment for its
// successor, then aborts what is still under way.

export class Latest<T> {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private running: AbortController | undefined;
  private turn = 0;

  constructor(
    private readonly work: (signal: AbortSignal) => Promise<T>,
    private readonly done: (result: T) => void,
    private readonly failed: (error: unknown) => void,
  ) {}

  /** Runs the work after the delay unless called again or dropped before. */
  ask(delay: number): void {
    clearTimeout(this.timer);
    this.turn++;
    this.timer = setTimeout(() => void this.run(), delay);
  }

  /** Forgets what waits and what runs; neither done nor failed is called for it. */
  drop(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
    this.turn++;
    this.running?.abort();
  }

  private async run(): Promise<void> {
    this.timer = undefined;
    this.running?.abort();
    const control = new AbortController();
    this.running = control;
    const turn = this.turn;
    try {
      const result = await this.work(control.signal);
      if (turn === this.turn) this.done(result);
    } catch (error) {
      if (turn === this.turn) this.failed(error);
    }
  }
}
