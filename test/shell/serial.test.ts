/** How the built shell grants the serial port of a scale, against the strict double of Electron. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { boot, clear, type Booted } from './boot.ts';
import type { PortDouble } from './double/serial.ts';

const running: Booted[] = [];
afterEach(async () => {
  for (const shell of running.splice(0)) await clear(shell);
});

async function opened(prepare?: (folder: string) => void): Promise<Booted> {
  const shell = await boot({ prepare });
  running.push(shell);
  await expect.poll(() => shell.windows[0]?.shown, { timeout: 60_000 }).toBe(true);
  return shell;
}
const page = (shell: Booted) => shell.windows[0]?.webContents;
const noteOf = (shell: Booted): unknown =>
  JSON.parse(readFileSync(join(shell.folder, 'scale-port.json'), 'utf8'));

const ADAPTER: PortDouble = {
  portId: 'a', portName: 'ttyUSB0', displayName: 'USB serial adapter', vendorId: '6790', productId: '29987',
}; // prettier-ignore
const BOARD: PortDouble = { portId: 'b', portName: 'ttyS0' };

describe('choosing the port of the scale', () => {
  it('selects the only port without a question, and stores it', async () => {
    const shell = await opened();
    expect(await shell.selectPort([ADAPTER], page(shell))).toBe('a');
    expect(shell.dialogs).toEqual([]);
    expect(noteOf(shell)).toEqual({ name: 'USB serial adapter' });
  });

  it('asks by name if there are several', async () => {
    const shell = await opened();
    shell.answers.push(1);
    expect(await shell.selectPort([BOARD, ADAPTER], page(shell))).toBe('a');
    expect(shell.dialogs[0]).toMatchObject({
      type: 'question',
      message: 'Which port is the scale on?',
      buttons: ['ttyS0', 'USB serial adapter (ttyUSB0)', 'None of these'],
      cancelId: 2,
    });
  });

  it('shows characters that systems treat as access keys', async () => {
    const shell = await opened();
    shell.answers.push(0);
    const signs = { ...ADAPTER, displayName: 'Scale_one & two' };
    await shell.selectPort([signs, BOARD], page(shell));
    expect(shell.dialogs[0]?.buttons[0]).toBe('Scale_one & two (ttyUSB0)');
  });

  it('lists the last used port first the next time', async () => {
    const shell = await opened();
    shell.answers.push(1, 0);
    await shell.selectPort([BOARD, ADAPTER], page(shell));
    expect(await shell.selectPort([BOARD, ADAPTER], page(shell))).toBe('a');
    expect(shell.dialogs[1]?.buttons[0]).toBe('USB serial adapter (ttyUSB0)');
  });

  it('selects none when the person cancels, and stores nothing', async () => {
    const shell = await opened();
    shell.answers.push(2);
    expect(await shell.selectPort([BOARD, ADAPTER], page(shell))).toBe('');
    expect(() => noteOf(shell)).toThrow();
  });

  it('explains what to do without a port', async () => {
    const shell = await opened();
    expect(await shell.selectPort([], page(shell))).toBe('');
    expect(shell.dialogs[0]).toMatchObject({
      type: 'info',
      buttons: ['OK'],
      message: expect.stringMatching(/Plug in the scale’s cable/),
    });
  });

  it('answers once even if the question cannot be shown', async () => {
    const shell = await opened();
    const noted = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    // The double's dialog throws without a prepared answer.
    expect(await shell.selectPort([BOARD, ADAPTER], page(shell))).toBe('');
    expect(noted).toHaveBeenCalledOnce();
    noted.mockRestore();
  });

  it('gives no port to a page that is not ours', async () => {
    const shell = await opened();
    expect(await shell.selectPort([ADAPTER], { getURL: () => 'https://example.org/?app://gambrel/' })).toBe(
      '',
    );
    expect(shell.dialogs).toEqual([]);
  });
});

describe('using the port again', () => {
  const device = { name: 'USB serial adapter', vendor_id: 6790, product_id: 29987, serial_number: 'A1' };
  const noted = (folder: string) =>
    writeFileSync(join(folder, 'scale-port.json'), '{"name":"USB serial adapter"}');

  it('is allowed for the chosen port, on our own page', async () => {
    const shell = await opened(noted);
    expect(shell.mayUseDevice('serial', 'app://gambrel', device)).toBe(true);
    expect(shell.mayUseDevice('serial', 'app://gambrel', { ...device, name: 'Another' })).toBe(false);
    expect(shell.mayUseDevice('serial', 'https://example.org', device)).toBe(false);
    expect(shell.mayUseDevice('usb', 'app://gambrel', device)).toBe(false);
    expect(shell.mayUseDevice('hid', 'app://gambrel', device)).toBe(false);
  });

  it('is allowed right after the choice, and not before', async () => {
    const shell = await opened();
    expect(shell.mayUseDevice('serial', 'app://gambrel', device)).toBe(false);
    await shell.selectPort([ADAPTER], page(shell));
    expect(shell.mayUseDevice('serial', 'app://gambrel', device)).toBe(true);
  });

  it.each(['nonsense', '{}', '{"name":7}', '{"name":""}'])('is refused if the note is %s', async (note) => {
    const shell = await opened((folder) => writeFileSync(join(folder, 'scale-port.json'), note));
    expect(shell.mayUseDevice('serial', 'app://gambrel', device)).toBe(false);
    expect(shell.mayUseDevice('serial', 'app://gambrel', {})).toBe(false);
  });
});
