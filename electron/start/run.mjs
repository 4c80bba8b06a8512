/** Runs a program in this one's place: same terminal, signals passed on, its exit code ours. */
import { spawn } from 'child_process';
import os from 'os';

/** A program that crashes within this time, ms, never really ran. */
const STARTING = 10000;
/** How often a start that was itself started looks for its parent, ms. */
const LOOK_EVERY = 1000;
const WINDOWS = process.platform === 'win32';
/** On Windows the console tells every program of Ctrl-C itself, and a signal that is passed on ends one at once. */
const PASSED_ON = WINDOWS ? [] : ['SIGINT', 'SIGTERM', 'SIGHUP'];
const HEARD = ['SIGINT', 'SIGTERM', 'SIGHUP'];

/**
 * Resolves when the program ends, with its exit code, and whether it failed before it ran at all. Each signal reaches it
 * once: the program stands in a session of its own, because a terminal signals the whole group and npm once more, and
 * Chromium takes a second one for an order to end at once.
 */
export function run(file, args) {
  return new Promise((resolve) => {
    const started = Date.now();
    const told = {};
    const child = spawn(file, args, {
      stdio: 'inherit',
      detached: !WINDOWS,
      // A program whose start was killed hears no signal: it looks for this process itself.
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

/** Whether a start that ran this one, on a newer Node, has ended. */
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
