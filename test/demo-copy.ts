/** The demo for tests that read it: made once for these sources, then copied. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { copyDemo } from '../src/demo/copy.ts';
import { keptFolder } from './kept-folder.ts';

const ROOT = join(import.meta.dirname, '..');

/** Puts a demo book at `path`. */
export function demoAt(path: string): Promise<void> {
  return copyDemo(path, demoKeptAt());
}

/** Where the demo of these sources is kept. */
export function demoKeptAt(): string {
  return join(keptFolder(), `gambrel-demo-${sourcesKey()}.gambrel`);
}

let key: string | undefined;

/** Of everything that has a hand in the demo: another line there, another demo. */
function sourcesKey(): string {
  if (key !== undefined) return key;
  const hash = createHash('sha256');
  for (const folder of ['src/trade', 'src/core', 'src/book', 'src/desk', 'src/demo', 'resources'])
    for (const name of readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).sort())
      if (/\.(ts|json)$/.test(name)) hash.update(name).update(readFileSync(join(ROOT, folder, name)));
  return (key = hash.digest('hex').slice(0, 16));
}
