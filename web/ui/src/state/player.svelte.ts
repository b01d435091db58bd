// The playback of a blow: where it stands and how fast it goes.
import type { Playback } from '../api/types';
import { neighbour, span } from '../drawing/frames';

export const speeds = [0.1, 0.05, 0.02, 0.01]; // of real time

export class Player {
  time = $state(0); // s
  playing = $state(false);
  speed = $state(0.02);
  shown = $state(false); // the drawing shows the blow
  private blow = $state.raw<Playback | null>(null);
  private frame = 0;

  /** Takes another blow; the place is kept while it lies inside. */
  load(blow: Playback | null): void {
    this.pause();
    this.blow = blow;
    if (!blow) this.shown = false;
    else this.seek(this.time);
  }

  get range(): [number, number] {
    return this.blow ? span(this.blow) : [0, 0];
  }

  seek(time: number): void {
    const [from, to] = this.range;
    this.time = Math.min(to, Math.max(from, time));
  }

  show(shown: boolean): void {
    this.shown = shown && this.blow !== null;
    if (!this.shown) this.pause();
  }

  play(): void {
    if (!this.blow || this.playing) return;
    this.shown = true;
    this.playing = true;
    const [from, to] = this.range;
    if (this.time >= to) this.time = from;
    let last = performance.now();
    const step = (now: number) => {
      if (!this.playing) return;
      this.seek(this.time + ((now - last) / 1000) * this.speed);
      last = now;
      if (this.time >= to) this.playing = false;
      else this.frame = requestAnimationFrame(step);
    };
    this.frame = requestAnimationFrame(step);
  }

  pause(): void {
    this.playing = false;
    cancelAnimationFrame(this.frame);
  }

  /** One frame on or back. */
  step(by: 1 | -1): void {
    this.pause();
    if (!this.blow) return;
    this.shown = true;
    this.seek(neighbour(this.blow, this.time, by));
  }
}
