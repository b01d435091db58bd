// Titles of the published sources, read once: a key of a source is for programs.
import * as api from '../api/client';

class Titles {
  private list = $state.raw<ReadonlyMap<string, string> | null>(null);
  private asked = false;

  /** The title of a source with its year; the key while the titles are not there, or where it is not known. */
  of(key: string): string {
    return this.list?.get(key) ?? key;
  }

  /** Reads the titles unless they are there or on the way. */
  async read(): Promise<void> {
    if (this.asked) return;
    this.asked = true;
    try {
      const { sources } = await api.sourceTitles();
      this.list = new Map((sources ?? []).map((s) => [s.key, s.title]));
    } catch {
      this.asked = false; // the next who asks tries again
    }
  }
}

export const titles = new Titles();
