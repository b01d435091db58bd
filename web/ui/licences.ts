import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';

/** Writes the licences of the packages that went into the page beside it. */
export function licences(): Plugin {
  return {
    name: 'licences',
    generateBundle(_options, bundle) {
      const found = new Set<string>();
      for (const part of Object.values(bundle)) {
        const from = part.type === 'chunk' ? part.moduleIds : part.originalFileNames;
        for (const id of from) {
          const match = /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(id.replaceAll('\\', '/'));
          if (match) found.add(match[1]!);
        }
      }
      this.emitFile({
        type: 'asset',
        fileName: 'licences.txt',
        source: [...found].sort().map(text).join('\n\n'),
      });
    },
  };
}

function text(name: string): string {
  const folder = join(import.meta.dirname, 'node_modules', name);
  const about = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    version: string;
    license?: string;
  };
  const file = readdirSync(folder).find((f) => /^licen[cs]e/i.test(f));
  const body = file && existsSync(join(folder, file)) ? readFileSync(join(folder, file), 'utf8').trim() : '';
  return `${name} ${about.version} (${about.license ?? 'no licence named'})\n\n${body}`;
}
