/** How the smoke tests start the program. */
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { startWords } from './packed.ts';

it.runIf(process.platform === 'linux')('the driver does not switch the sandbox off', () => {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-packed-'));
  try {
    const program = join(folder, 'gambrel');
    writeFileSync(program, `#!/bin/sh\nprintf '%s\\n' "$@" > "${folder}/words"\n`); // notes its words and ends
    chmodSync(program, 0o755);
    const given = startWords(folder, join(folder, 'shop.gambrel'));
    // In a process of its own: the driver leaves promises behind for a program that ends at once.
    const script = `const { start } = await import(process.argv[1]); await start(process.argv[2], process.argv.slice(3));`;
    const packed = new URL('packed.ts', import.meta.url).href;
    const { status } = spawnSync(process.execPath, [
      '--input-type=module',
      '-e',
      script,
      '--',
      packed,
      program,
      ...given,
    ]);
    expect(status).toBe(1);
    const words = readFileSync(join(folder, 'words'), 'utf8').trim().split('\n');
    expect(words).toEqual(expect.arrayContaining(given));
    expect(words).not.toContain('--no-sandbox');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
