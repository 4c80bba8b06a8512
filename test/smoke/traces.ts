/** What a run of the program leaves behind, and what that says. Pure reading, so that it is tested without the program. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** The events of a log, oldest first. Example: `2026-… ended` gives `ended`. */
export function eventsOf(log: string): string[] {
  return log
    .split('\n')
    .filter(Boolean)
    .map((line) => line.split(' ')[1] ?? '');
}

/** The events of the log in `folder`; none where there is no log yet. */
export function eventsIn(folder: string): string[] {
  const name = readdirSync(folder).find((file) => file === 'gambrel.log');
  return name ? eventsOf(readFileSync(join(folder, name), 'utf8')) : [];
}

/** Files beside a book that are there only while it is open. */
export function openBookFiles(folder: string): string[] {
  return readdirSync(folder).filter((name) => /\.gambrel-(wal|shm)$/.test(name));
}

/** Folders of demos that runs left among the temporary files. */
export function demosLeft(temporary: string): string[] {
  return readdirSync(temporary).filter((name) => name.startsWith('gambrel-demo-'));
}

/** Whether a file is a book, or a new one that was written to. */
export function isBook(file: string): boolean {
  return readFileSync(file).toString('latin1', 0, 15) === 'SQLite format 3';
}

/**
 * Whether a process of Linux runs in Chromium's sandbox, by its `/proc/PID/status`: in a namespace of processes of its own
 * (`NSpid` has more than one number) and with system calls filtered (`Seccomp: 2`). Source: proc_pid_status(5).
 */
export function isSandboxed(status: string): boolean {
  const inNamespace = /^NSpid:\s+\d+\s+\d+/m.test(status);
  return inNamespace && /^Seccomp:\s+2$/m.test(status);
}
