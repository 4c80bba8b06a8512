/**
 * One run of an installed program, watched from outside: its fuses are closed, so no driver comes in. What can be seen is
 * the book, the log and how it ends.
 */
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { eventsIn, isBook, openBookFiles } from './traces.ts';

export interface Watched {
  /** Everything that was not as it should be; empty when all was well. */
  faults: string[];
  events: string[];
}

/** How long is waited, ms: for each step at most, and for the window, which follows its book and tells nobody outside. */
const PATIENCE = { longest: 30_000, window: 3_000 };

/**
 * Starts `program` with `words`, which name `book`, waits until the book is open, ends the program as its system does and
 * looks at what is left.
 * @param own folder of its own for settings and logs
 */
export async function watchRun(
  program: string,
  words: readonly string[],
  book: string,
  own: string,
  { longest, window } = PATIENCE,
): Promise<Watched> {
  const faults: string[] = [];
  const events = eventsSince(own);
  const { child, ended } = begin(program, words, own);
  const open = () => existsSync(book) && isBook(book) && openBookFiles(dirname(book)).length > 0;
  if (!(await within(longest, () => open() || child.exitCode !== null)) || !open())
    faults.push(`The book ${book} was not opened.`);
  await within(window, () => hasEnded(child));
  endPolitely(child);
  if (!(await within(longest, () => hasEnded(child)))) {
    faults.push('The program did not end when it was asked to.');
    child.kill('SIGKILL');
  }
  const code = await ended;
  if (code !== 0) faults.push(`The program ended with ${String(code)}.`);
  const last = events().at(-1) ?? 'missing';
  if (last !== 'ended') faults.push(`The last event of the log is ${last}.`);
  for (const name of openBookFiles(dirname(book))) faults.push(`${name} was left beside the book.`);
  if (!existsSync(book) || !isBook(book)) faults.push(`${book} is no book afterwards.`);
  return { faults, events: events() };
}

/** Starts `program` where it may not run; it must say so in its log, open no book, and is ended. */
export async function watchRefusal(
  program: string,
  words: readonly string[],
  book: string,
  own: string,
  { longest } = PATIENCE,
): Promise<Watched> {
  const events = eventsSince(own);
  const { child, ended } = begin(program, words, own);
  await within(longest, () => events().includes('refused') || hasEnded(child));
  const faults = events().includes('refused') ? [] : ['The program did not refuse to run.'];
  if (existsSync(book) && isBook(book)) faults.push(`The book ${book} was opened all the same.`);
  child.kill('SIGKILL'); // its sentence waits for somebody who reads it
  await ended;
  return { faults, events: events() };
}

/** The events that are logged from now on. Only macOS keeps logs elsewhere than with the program's own settings. */
function eventsSince(own: string): () => string[] {
  const logs = process.platform === 'darwin' ? join(homedir(), 'Library/Logs/Gambrel') : join(own, 'logs');
  const all = () => (existsSync(logs) ? eventsIn(logs) : []);
  const before = all().length;
  return () => all().slice(before);
}

function begin(program: string, words: readonly string[], own: string) {
  mkdirSync(own, { recursive: true });
  const child = spawn(program, [`--user-data-dir=${own}`, ...words], { stdio: 'inherit' });
  const ended = new Promise<number | string | null>((done) => {
    child.once('error', (error) => done(error.message));
    child.once('exit', (code, signal) => done(code ?? signal));
  });
  return { child, ended };
}

/** As a system does that shuts down; Windows asks the program's window. */
function endPolitely(child: ChildProcess): void {
  if (hasEnded(child)) return;
  if (process.platform === 'win32') execFileSync('taskkill', ['/PID', String(child.pid)]);
  else child.kill('SIGTERM');
}

function hasEnded(child: ChildProcess): boolean {
  return child.exitCode !== null || child.signalCode !== null || child.pid === undefined;
}

async function within(time: number, done: () => boolean): Promise<boolean> {
  for (const until = Date.now() + time; Date.now() < until; await wait(100)) if (done()) return true;
  return done();
}
