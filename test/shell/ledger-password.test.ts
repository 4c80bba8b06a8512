/** The ledger's password in the system's key store, reached by the desk through the shell. */
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import type { Booted } from './boot.ts';
import { bridgeOf, opened, windowOf } from './running.ts';

const PASSWORD = 'a password with ü';
const LEDGER = {
  host: '127.0.0.1', port: 1, database: 'shops', user: 'north', tls: 'none', ca: null,
} as const; // prettier-ignore
const SOON = { timeout: 20_000 };

async function files(shell: Booted): Promise<{ plain: string; sealed: string }> {
  const look = await (await bridgeOf(shell)).call('shop.get', {});
  const folder = dirname(look.ok ? look.value.bookPath : '');
  return { plain: join(folder, 'shop ledger password'), sealed: join(folder, 'shop ledger password sealed') };
}

async function hasPassword(shell: Booted): Promise<boolean> {
  const view = await (await bridgeOf(shell)).call('ledger.get', {});
  return view.ok && view.value.hasPassword;
}

it('is sealed where there is a key store, kept in a file of this account where there is none', async () => {
  const shell = await opened();
  const { call } = await bridgeOf(shell);
  await call('shop.setUp', { shopName: 'Ridge', unit: 'lb' });
  const { plain, sealed } = await files(shell);
  // A key that stands in Chromium's source protects nothing.
  if (process.platform === 'linux') {
    shell.keyStore.backend = 'basic_text';
    expect((await call('ledger.storePassword', { password: PASSWORD })).ok).toBe(true);
    expect(readFileSync(plain, 'utf8')).toBe(PASSWORD);
    expect([existsSync(sealed), shell.keyStore.sealed]).toEqual([false, []]);
    shell.keyStore.backend = 'gnome_libsecret';
  }
  expect((await call('ledger.storePassword', { password: PASSWORD })).ok).toBe(true);
  expect([existsSync(plain), shell.keyStore.sealed]).toEqual([false, [PASSWORD]]);
  expect(Buffer.from(readFileSync(sealed, 'utf8'), 'base64').toString('latin1')).not.toContain('password');
  // The feed gets it back: it is refused by the line, not for want of a password.
  expect((await call('ledger.turnOn', { ...LEDGER, personal: false })).ok).toBe(true);
  const state = async (): Promise<unknown> => {
    const view = await call('ledger.get', {});
    return view.ok && view.value.state;
  };
  await expect.poll(state, SOON).toEqual({ kind: 'waiting', why: 'unreachable' });

  // A file of a time without a key store is taken over when the book is opened again.
  renameSync(sealed, `${sealed}.away`);
  writeFileSync(plain, PASSWORD, { mode: 0o600 });
  shell.desks[0]?.crash();
  await expect.poll(() => existsSync(sealed), SOON).toBe(true);
  expect([existsSync(plain), readFileSync(sealed, 'utf8')]).toEqual([
    false,
    readFileSync(`${sealed}.away`, 'utf8'),
  ]);

  // On another computer the key store opens nothing: the window asks for it again.
  shell.keyStore.computer = 2;
  shell.desks[1]?.crash();
  await expect.poll(() => windowOf(shell).contents.loads, SOON).toBe(3);
  await expect.poll(() => hasPassword(shell), SOON).toBe(false);
  expect(existsSync(sealed)).toBe(true);
}, 120_000);
