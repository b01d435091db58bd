// Whether what is shown lags behind what was asked for, and for long enough to say so.

const noticed = 150; // ms that values may lag behind before they are drawn as stale

export class Lag {
  pending = $state(false); // something is not answered yet
  late = $state(false);
  private timer: ReturnType<typeof setTimeout> | undefined;

  begin(): void {
    this.pending = true;
    this.timer ??= setTimeout(() => (this.late = true), noticed);
  }

  /** Nobody answers. */
  hold(): void {
    this.pending = true;
    this.late = true;
  }

  end(): void {
    this.pending = false;
    this.late = false;
    this.stop();
  }

  stop(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
  }
}
