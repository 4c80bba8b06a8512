/** Runs a program in place of this one: same terminal, forwarded signals, same exit code. */
import { spawn } from 'child_process';
import os from 'os';

/** A program that crashes within this time, ms, failed to start. */
const STARTING = 10000;
/** Interval at which a nested start checks for its parent, ms. */
const LOOK_EVERY = 1000;
const WINDOWS = process.platform === 'win32';
/** On Windows the console sends Ctrl-C to every program itself, and a forwarded signal ends one immediately. */
const PASSED_ON = WINDOWS ? [] : ['SIGINT', 'SIGTERM', 'SIGHUP'];
const HEARD = ['SIGINT', 'SIGTERM', 'SIGHUP'];

/**
 * Resolves when the program ends, with its exit code, and whether it failed to start. Each signal reaches it once:
 * the program runs in its own session, because a terminal signals the whole group and npm signals again, and
 * Chromium takes a second signal for an order to end immediately.
 */
export function run(file, args) {
  return new Promise((resolve) => {
    const started = Date.now();
    const told = {};
    const child = spawn(file, args, {
      stdio: 'inherit',
      detached: !WINDOWS,
      // A program whose start was killed gets no signal: it checks for this process itself.
      env: Object.assign({}, process.env, { GAMBREL_PARENT: String(process.pid) }),
    });
    const pass = (signal) => {
      if (told[signal] || PASSED_ON.indexOf(signal) < 0) return;
      told[signal] = true;
      child.kill(signal);
    };
    HEARD.forEach((signal) => process.on(signal, pass));
    const look = setInterval(() => parentGone() && pass('SIGTERM'), LOOK_EVERY);
    const end = (code, neverRan) => {
      clearInterval(look);
      HEARD.forEach((signal) => process.removeListener(signal, pass));
      resolve({ code, neverRan });
    };
    child.on('error', () => end(127, true));
    child.on('close', (code, signal) => {
      // 127: the system could not load it; a crash signal: the sandbox or a library is missing.
      const failed = code === 127 || (signal !== null && Object.keys(told).length === 0);
      end(
        signal === null ? code : 128 + os.constants.signals[signal],
        failed && Date.now() - started < STARTING,
      );
    });
  });
}

/** Whether the start that ran this one, on a newer Node, has ended. */
function parentGone() {
  const parent = Number(process.env.GAMBREL_PARENT || 0);
  if (!parent) return false;
  try {
    process.kill(parent, 0);
    return false;
  } catch (error) {
    return error.code !== 'EPERM';
  }
}
