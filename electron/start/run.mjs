/** Runs a program in this one's place: same terminal, signals passed on, its exit code ours. */
import { spawn } from 'child_process';
import os from 'os';

/** A program that crashes within this time, ms, never really ran. */
const STARTING = 10000;
const PASSED_ON = ['SIGINT', 'SIGTERM', 'SIGHUP'];

/** Resolves when the program ends, with its exit code, and whether it failed before it ran at all. */
export function run(file, args) {
  return new Promise((resolve) => {
    const started = Date.now();
    let told = false;
    const child = spawn(file, args, { stdio: 'inherit' });
    const handlers = PASSED_ON.map((signal) => {
      const pass = () => {
        told = true;
        child.kill(signal);
      };
      process.on(signal, pass);
      return [signal, pass];
    });
    const end = (code, neverRan) => {
      handlers.forEach((handler) => process.removeListener(handler[0], handler[1]));
      resolve({ code, neverRan });
    };
    child.on('error', () => end(127, true));
    child.on('close', (code, signal) => {
      // 127: the system could not load it; a crash signal: the sandbox or a library is missing.
      const failed = code === 127 || (signal !== null && !told);
      end(
        signal === null ? code : 128 + os.constants.signals[signal],
        failed && Date.now() - started < STARTING,
      );
    });
  });
}
