// The file behind an open design: what stands there, and what somebody else
// wrote into it meanwhile.
import * as api from '../api/client';
import type { Conflict, DesignFile } from '../api/types';

const nothing = 'gone'; // the version of a file that is not there; no hash reads so

export class OnDisk {
  text = $state('');
  saving = $state(false);
  conflict = $state.raw<Conflict | null>(null); // what somebody else wrote

  private version = '';
  private waved = ''; // version about which the reader decided later

  constructor(private readonly name: string) {}

  /** Takes over what was read. */
  opened(text: string, version: string): void {
    this.text = text;
    this.version = version;
  }

  async read(): Promise<DesignFile> {
    const file = await api.design(this.name);
    this.opened(file.text, file.version);
    return file;
  }

  /** Writes a text over the version that is known, or over another one; false when somebody else was there first. */
  async write(text: string, version = this.version): Promise<boolean> {
    this.saving = true;
    try {
      const result = await api.save(this.name, text, version);
      if ('conflict' in result) {
        this.conflict = result.conflict;
        return false;
      }
      this.opened(text, result.saved.version);
      return true;
    } finally {
      this.saving = false;
    }
  }

  /** What stands on disk when it is neither the known version nor one that was decided upon. */
  async changed(): Promise<DesignFile | null> {
    if (this.saving || this.conflict) return null;
    const file = await api.design(this.name);
    return file.version === this.version || file.version === this.waved || this.saving ? null : file;
  }

  /** Ends the question about a conflict and returns what somebody else wrote. */
  settle(): Conflict | null {
    const theirs = this.conflict;
    this.conflict = null;
    return theirs;
  }

  /** The file is no longer in the folder: asked once. */
  gone(): void {
    if (this.waved !== nothing && !this.saving) this.conflict = { message: '', text: '', version: '' };
  }

  later(): void {
    this.waved = this.settle()?.version || nothing;
  }
}
