/** The log of the built shell: its content, what it must never contain, and its size limit. */
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { errorLine, markOf } from '../../electron/log-lines.ts';
import type { Booted } from './boot.ts';
import { bridgeOf, click, opened, windowOf } from './running.ts';

const fileOf = (shell: Booted) => join(shell.folder, 'logs', 'gambrel.log');
const linesOf = (shell: Booted) => readFileSync(fileOf(shell), 'utf8').trimEnd().split('\n');

describe('the log', () => {
  it('records starts, stops and ends, and no content of the book', async () => {
    const shell = await opened();
    const bridge = await bridgeOf(shell);
    await bridge.call('shop.setUp', { shopName: 'Ridge Game Processing', unit: 'lb' });
    await bridge.call('hunters.save', { name: 'Ann Miller', phone: '307 555 0123' });
    windowOf(shell).contents.emit('render-process-gone', {}, { reason: 'crashed' });
    shell.desks[0]?.crash();
    await expect.poll(() => shell.desks.length).toBe(2);
    await expect.poll(() => shell.dialogs.length).toBe(2);
    windowOf(shell).close();
    await expect.poll(() => shell.ended).toBe(0);
    expect(
      linesOf(shell).map((line) => line.replace(/^\d{4}-\d\d-\d\dT[\d:.]+Z /, '').split(' ')[0]),
    ).toEqual(['started', 'window-stopped', 'desk-stopped', 'ended']);
    expect(linesOf(shell)[0]).toMatch(/ started version=0\.1\.0 electron=\S* chrome=\S* system=\w+$/);
    const text = readFileSync(fileOf(shell), 'utf8');
    for (const secret of ['Ridge', 'Ann', '555', shell.folder, 'shop.gambrel'])
      expect(text).not.toContain(secret);
  });

  it('records the class and locations of an error in the desk', async () => {
    const shell = await opened();
    shell.desks[0]?.says({ kind: 'broken', mark: { name: 'TypeError', code: '', places: ['desk.js:1:2', 'desk.js:3:4'] } }); // prettier-ignore
    expect(linesOf(shell).at(-1)).toMatch(/Z desk-broken error=TypeError at=desk\.js:1:2<desk\.js:3:4$/);
  });

  it('is rotated when it is long; three older ones are kept', async () => {
    const full = 'x'.repeat(300 * 1024);
    const shell = await opened({
      prepare(folder) {
        mkdirSync(join(folder, 'logs'));
        for (const [at, name] of ['gambrel.log', 'gambrel.log.1', 'gambrel.log.2', 'gambrel.log.3'].entries())
          writeFileSync(join(folder, 'logs', name), `${at}${full}`);
      },
    });
    const names = readdirSync(join(shell.folder, 'logs')).toSorted();
    expect(names).toEqual(['gambrel.log', 'gambrel.log.1', 'gambrel.log.2', 'gambrel.log.3']);
    expect(statSync(fileOf(shell)).size).toBeLessThan(1000);
    const first = names.slice(1).map((name) => readFileSync(join(shell.folder, 'logs', name), 'utf8')[0]);
    expect(first).toEqual(['0', '1', '2']);
  });

  it('does not block the start if it cannot be written', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const shell = await opened({ prepare: (folder) => writeFileSync(join(folder, 'logs'), 'a file') });
    expect(told).toHaveBeenCalledOnce();
    expect(existsSync(fileOf(shell))).toBe(false);
    told.mockRestore();
  });

  it('does not block the start without a folder', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const shell = await opened({ noFolder: 'logs' });
    expect(told.mock.calls.map(([what]) => what)).toEqual(['Gambrel: there is no log.']);
    expect(shell.dialogs).toEqual([]);
    told.mockRestore();
  });

  it('records a process of the runtime that stopped, but not one that was ended', async () => {
    const shell = await opened();
    const gone = (details: object) => shell.app.emit('child-process-gone', {}, details);
    gone({ type: 'GPU', reason: 'crashed', exitCode: 5 });
    gone({ type: 'Sandbox helper', reason: 'launch-failed', exitCode: 1 });
    gone({ type: 'Utility', name: 'Gambrel desk', reason: 'killed', exitCode: 15 });
    gone({ type: 'Utility', name: 'Network Service', reason: 'clean-exit', exitCode: 0 });
    expect(linesOf(shell).slice(1).map((line) => line.split('Z ')[1])).toEqual([
      'process-stopped type=GPU reason=crashed',
      'process-stopped type=Sandbox-helper reason=launch-failed',
    ]); // prettier-ignore
  });

  it('is shown in the file manager', async () => {
    const shell = await opened();
    click(shell, 'Show &log');
    expect(shell.shownFiles).toEqual([fileOf(shell)]);
  });
});

describe('an error in the log', () => {
  it('keeps class, code and locations, never messages', () => {
    const error = Object.assign(new TypeError('Ann Miller\n    at 12 Elm Street:1:1x\n has no tag'), {
      code: 'SQLITE_FULL',
    });
    const mark = markOf(error);
    expect(mark).toMatchObject({ name: 'TypeError', code: 'SQLITE_FULL' });
    expect(mark.places[0]).toMatch(/^log\.test\.ts:\d+:\d+$/);
    expect(errorLine(new Date(0), 'x', mark)).not.toMatch(/Ann|Elm|\//);
  });

  it('is written for anything that is thrown', () => {
    expect(markOf('Ann Miller')).toEqual({ name: 'string', code: '', places: [] });
    expect(markOf(Object.assign(new Error('x'), { name: 'Ann Miller', code: 'no tag' }))).toMatchObject({ name: '', code: '' }); // prettier-ignore
  });
});
