import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { endWithRun } from '../run-folder.ts';

const PROGRAM = join(import.meta.dirname, '../../out/main/serve.js');

/** The built program on a loopback address, as `npm start` runs it without a desktop. */
export interface Served {
  process: ChildProcess;
  /** Presses Enter in its terminal: prints an address that is valid once, for a minute. */
  newAddress(): Promise<string>;
  /** Ends it by the given signal and waits for its exit. */
  end(signal: 'SIGKILL' | 'SIGINT'): Promise<void>;
}

export async function serve(...args: string[]): Promise<Served> {
  if (args.includes('--book')) beginBook(args[args.indexOf('--book') + 1] ?? '');
  const child = spawn(process.execPath, [PROGRAM, '--no-open', '--port', '0', ...args], {
    env: { ...process.env, TZ: 'America/Denver' },
  });
  let said = '';
  let seen = 0;
  child.stdout.setEncoding('utf8').on('data', (text: string) => (said += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (said += text));
  const nextAddress = () =>
    new Promise<string>((resolve, reject) => {
      const ended = (code: number | null) => reject(new Error(`The program ended with ${code}: ${said}`));
      const look = () => {
        const found = [...said.matchAll(/http:\/\/127\.0\.0\.1:\d+\/#code=\S+(?=\s)/g)][seen];
        if (!found) return;
        seen += 1;
        child.stdout.removeListener('data', look);
        child.removeListener('exit', ended);
        resolve(found[0]);
      };
      child.stdout.on('data', look);
      child.once('exit', ended);
    });
  await nextAddress();
  let turn: Promise<unknown> = Promise.resolve();
  return {
    process: child,
    newAddress() {
      const address = turn.then(() => {
        child.stdin.write('\n');
        return nextAddress();
      });
      turn = address.catch(() => undefined); // The error was reported to its caller.
      return address;
    },
    end: (signal) =>
      new Promise((resolve) => {
        if (child.exitCode !== null || child.signalCode !== null) return resolve();
        child.once('exit', () => resolve());
        child.kill(signal);
      }),
  };
}

let shared: Promise<Served> | undefined;

/** The demo for tests that look and write nothing. The test files of a worker share it, and `end` leaves it running. */
export async function sharedDemo(): Promise<Served> {
  shared ??= serve('--demo').then((demo) => {
    endWithRun(demo.process.pid);
    return demo;
  });
  return { ...(await shared), end: () => Promise.resolve() };
}

/** A named book that is missing would raise a question; an empty file is a new book. */
function beginBook(path: string): void {
  const backups = path.replace(/\.gambrel$/, ' backups');
  if (!existsSync(path) && !existsSync(backups)) writeFileSync(path, '');
}
