// A server of its own for a test: the built program on a fresh folder with the demo designs.
import { spawn, type ChildProcess } from 'node:child_process';
import { copyFileSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { launch } from './browser';

const root = join(import.meta.dirname, '../../..');
const program = process.env.COSTREL_PROGRAM ?? join(root, 'bin/costrel');

/** A fresh folder with copies of the demo designs. */
export function folder(): string {
  const dir = mkdtempSync(join(tmpdir(), 'costrel-designs-'));
  const examples = join(root, 'examples');
  for (const f of readdirSync(examples))
    if (f.endsWith('.yaml')) copyFileSync(join(examples, f), join(dir, f));
  return dir;
}

export class Own {
  url = '';
  private child: ChildProcess | undefined;

  constructor(readonly dir: string) {}

  /** Starts the program and waits until it says where it is; port 0 picks a free one. */
  async start(port = 0, more: string[] = [], env: Record<string, string> = {}): Promise<void> {
    const child = spawn(program, ['serve', '--dir', this.dir, '--port', `${port}`, ...more], {
      stdio: ['ignore', 'pipe', 'inherit'],
      env: { ...process.env, ...env },
    });
    this.child = child;
    let said = '';
    this.url = await new Promise<string>((resolve, reject) => {
      child.on('error', reject);
      child.on('exit', (code) => reject(new Error(`the server ended with ${code}: ${said}`)));
      child.stdout.on('data', (piece: Buffer) => {
        said += piece.toString();
        const at = /https?:\/\/\S+?:\d+/.exec(said);
        if (at) resolve(at[0]);
      });
    });
  }

  get port(): number {
    return Number(new URL(this.url).port);
  }

  /** Ends the program without a word (SIGKILL), or as Ctrl+C does. */
  async end(signal: 'SIGKILL' | 'SIGINT' = 'SIGKILL'): Promise<void> {
    const child = this.child;
    this.child = undefined;
    if (!child || child.exitCode !== null) return;
    const gone = new Promise((resolve) => child.once('exit', resolve));
    child.kill(signal);
    await gone;
  }

  async remove(): Promise<void> {
    await this.end();
    rmSync(this.dir, { recursive: true, force: true });
  }
}

/** A browser beside a server of its own for all tests of a file, ended behind them. */
export function served(): { own: Own; browser: () => Browser } {
  const own = new Own(folder());
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
    await own.start();
  });
  afterAll(() => own.remove());
  return { own, browser: () => browser };
}
