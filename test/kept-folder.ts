import { tmpdir } from 'node:os';

/** The environment variable that names the folder to the tests of a run, whose own temporary folder is removed after it. */
export const KEEPING_PLACE = 'GAMBREL_KEPT_FOLDER';

/** Where tests leave what the next run takes up again: the demo of these sources, the unpacked browser. */
export function keptFolder(): string {
  return process.env[KEEPING_PLACE] ?? tmpdir();
}
