/** The judgements of the smoke tests, held against runs of the shell on the double and against known texts. */
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { displayWords } from './display.ts';
import { fusesOf, SENTINEL, SHIPPED_FUSES } from './fuses.ts';
import { watchRefusal, watchRun } from './installed-run.ts';
import { demosLeft, eventsOf, isSandboxed, openBookFiles } from './traces.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gambrel-traces-'));
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, force: true });
});

/** The stand-in opens its book within a second or two. */
const QUICK = { longest: 10_000, window: 500 };

describe('a run of an installed program', { timeout: 60_000 }, () => {
  const book = () => join(folder, 'shop', 'my shop.gambrel');
  /** A program file that runs the stand-in. */
  function program(): string {
    const file = join(folder, 'gambrel');
    const standIn = resolve(import.meta.dirname, 'stand-in.ts');
    writeFileSync(file, `#!/bin/sh\nexec "${process.execPath}" "${standIn}" "$@"\n`);
    chmodSync(file, 0o755);
    mkdirSync(join(folder, 'shop'));
    writeFileSync(book(), '');
    return file;
  }
  const run = () => watchRun(program(), [book()], book(), join(folder, 'own'), QUICK);

  it.runIf(process.platform === 'linux')(
    'is well when the book opens and closes and the log ends as it should',
    async () => {
      const { faults, events } = await run();
      expect(faults).toEqual([]);
      expect([events[0], events.at(-1)]).toEqual(['started', 'ended']);
    },
  );

  it.runIf(process.platform === 'linux').each([
    ['crash', [/was not opened/, /ended with 3/, /last event of the log is missing/, /is no book/]],
    [
      'deaf',
      [
        /did not end when it was asked/,
        /ended with SIGKILL/,
        /last event of the log is started/,
        /-(wal|shm) was left/,
        /-(wal|shm) was left/,
      ],
    ],
    ['untidy', [/my shop\.gambrel-wal was left/]],
  ])('is not well when it goes wrong: %s', async (how, expected) => {
    vi.stubEnv('GAMBREL_STAND_IN', how);
    const { faults } = await run();
    expect(faults).toHaveLength(expected.length);
    faults.forEach((fault, at) => expect(fault).toMatch(expected[at] ?? ''));
  });

  it.runIf(process.platform === 'linux')('is well with the address that a list of files gives', async () => {
    const { faults } = await watchRun(
      program(),
      [pathToFileURL(book()).href],
      book(),
      join(folder, 'own'),
      QUICK,
    );
    expect(faults).toEqual([]);
  });

  it.runIf(process.platform === 'linux')('is refused where it would have no sandbox', async () => {
    const { faults, events } = await watchRefusal(
      program(),
      ['--no-sandbox', book()],
      book(),
      join(folder, 'own'),
      QUICK,
    );
    expect(faults).toEqual([]);
    expect(events).toContain('refused');
  });

  it.runIf(process.platform === 'linux')('is no refusal when the book is opened', async () => {
    vi.stubEnv('GAMBREL_STAND_IN', 'deaf');
    const { faults } = await watchRefusal(program(), [book()], book(), join(folder, 'own'), QUICK);
    expect(faults).toEqual([
      'The program did not refuse to run.',
      `The book ${book()} was opened all the same.`,
    ]);
  });
});

it('the events of a log are read in order', () => {
  expect(
    eventsOf('2026-11-29T03:00:00.000Z started version=0.1.0\n2026-11-29T03:00:09.000Z ended\n'),
  ).toEqual(['started', 'ended']);
  expect(eventsOf('')).toEqual([]);
});

it('what a run leaves is seen', () => {
  for (const name of ['a.gambrel', 'a.gambrel-wal', 'a.gambrel-shm', 'notes-wal'])
    writeFileSync(join(folder, name), '');
  mkdirSync(join(folder, 'gambrel-demo-17-abcdef'));
  expect(openBookFiles(folder).toSorted()).toEqual(['a.gambrel-shm', 'a.gambrel-wal']);
  expect(demosLeft(folder)).toEqual(['gambrel-demo-17-abcdef']);
});

it('a sandboxed page is told from one without', () => {
  // As the system showed them for pages of Chromium 156, started with and without --no-sandbox.
  expect(isSandboxed('Name:\tchromium\nNSpid:\t2202\t5\t1\nNoNewPrivs:\t1\nSeccomp:\t2\n')).toBe(true);
  expect(isSandboxed('Name:\tchromium\nNSpid:\t2932\nNoNewPrivs:\t1\nSeccomp:\t0\n')).toBe(false);
  expect(isSandboxed('NSpid:\t2932\nSeccomp:\t2\n')).toBe(false);
  expect(isSandboxed('NSpid:\t2202\t5\nSeccomp:\t0\n')).toBe(false);
});

it('fuses are read from the program, on macOS from the framework beside it', () => {
  const burnt = (fuses: string) =>
    Buffer.concat([Buffer.from(`x${SENTINEL}`), Buffer.from([1, fuses.length]), Buffer.from(`${fuses}y`)]);
  writeFileSync(join(folder, 'gambrel'), burnt(SHIPPED_FUSES));
  expect(fusesOf(join(folder, 'gambrel'))).toBe(SHIPPED_FUSES);
  const contents = join(folder, 'Gambrel.app/Contents');
  const framework = join(contents, 'Frameworks/Electron Framework.framework');
  for (const place of [join(contents, 'MacOS'), framework]) mkdirSync(place, { recursive: true });
  writeFileSync(join(contents, 'MacOS/Gambrel'), 'a starter');
  expect(() => fusesOf(join(contents, 'MacOS/Gambrel'))).toThrow('holds no fuses');
  writeFileSync(join(framework, 'Electron Framework'), burnt('101100011'));
  expect(fusesOf(join(contents, 'MacOS/Gambrel'))).toBe('101100011');
});

it('the display is chosen where it is named', () => {
  expect(displayWords({})).toEqual([]);
  expect(displayWords({ GAMBREL_SMOKE_DISPLAY: 'wayland' })).toEqual(['--ozone-platform=wayland']);
});
