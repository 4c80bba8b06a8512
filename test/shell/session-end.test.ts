/**
 * The end of the person's session under the built shell: Windows ends the process when its handlers have returned.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bridgeOf, noteOf, opened, windowOf } from './running.ts';
import type { Booted } from './boot.ts';

async function working(): Promise<Booted> {
  const shell = await opened();
  await (await bridgeOf(shell)).call('shop.setUp', { shopName: 'Ridge', unit: 'lb' });
  return shell;
}

const kept = (shell: Booted) => {
  const folder = join(shell.folder, 'shop backups');
  return existsSync(folder) ? readdirSync(folder).toSorted() : [];
};
const logOf = (shell: Booted) => readFileSync(join(shell.folder, 'logs', 'gambrel.log'), 'utf8');

describe('logging off Windows', () => {
  it('backs up, closes and seals the book before the handler returns', async () => {
    const shell = await working();
    expect(kept(shell)).toEqual([]);
    windowOf(shell).endSession('logoff');
    // Without await: this is the state on disk when Windows ends the process.
    expect(kept(shell)).toEqual(['last closed.sha256', expect.stringMatching(/^shop book-.*\.gambrel$/)]);
    expect(readdirSync(shell.folder).filter((name) => name.startsWith('shop.gambrel'))).toEqual([
      'shop.gambrel',
    ]);
    expect(existsSync(join(shell.folder, 'closed.json'))).toBe(false);
    expect(noteOf(shell, 'window')).toMatchObject({ width: 1366 });
    expect(logOf(shell)).toMatch(/ session-ended reasons=logoff closed=true$/m);
  });

  it('closes the book without a backup if the end is forced', async () => {
    const shell = await working();
    windowOf(shell).endSession('shutdown', 'critical');
    expect(kept(shell).filter((name) => name.endsWith('.gambrel'))).toEqual([]);
    expect(readdirSync(shell.folder).filter((name) => name.startsWith('shop.gambrel'))).toEqual([
      'shop.gambrel',
    ]);
  });

  it('delays the system no longer than its limit, when the desk is slow', async () => {
    const shell = await working();
    const [desk] = shell.desks;
    if (desk) desk.busy = true;
    const began = performance.now();
    windowOf(shell).endSession('logoff');
    expect(performance.now() - began).toBeLessThan(5_000);
    expect(logOf(shell)).toMatch(/ session-ended reasons=logoff closed=false$/m);
  });

  it('is handled once, and starts no other desk', async () => {
    const shell = await working();
    windowOf(shell).endSession('logoff');
    windowOf(shell).endSession('logoff');
    shell.desks[0]?.crash();
    await expect.poll(() => shell.desks[0]?.ended).toBe(true);
    expect(shell.desks[0]?.sent.filter((kind) => kind === 'close')).toHaveLength(1);
    expect([shell.desks.length, shell.dialogs]).toEqual([1, []]);
  });
});

describe('shutting down Linux or macOS', () => {
  it('quits as a person would, and delays the system meanwhile', async () => {
    const shell = await working();
    const event = { prevented: false, preventDefault: () => (event.prevented = true) };
    shell.powerMonitor.emit('shutdown', event);
    expect(event.prevented).toBe(true);
    await expect.poll(() => shell.ended).toBe(0);
    expect(kept(shell)).toContain('last closed.sha256');
  });
});
