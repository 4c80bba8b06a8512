import { problemMessage } from '../problem-message.ts';
import type { ScaleProblem, Shown } from '../../link/scale-watch.ts';
import type { Format } from '../format.ts';

/** Texts of the connected scale. */
export const scaleText = {
  title: 'Scale',
  practice: 'Practice scale',
  take: 'Take',
  takeKey: 'Space',
  takeLabel: 'Take the weight from the scale',
  none: 'No scale is connected. Weights are typed.',
  about:
    'A scale with a serial or USB cable can fill in weights. A person always takes them; typing works as before.',
  noPorts:
    'This browser cannot open a serial port. Use the Gambrel program itself, or Chrome or Edge. The practice scale works here.',
  choose: 'Choose the port',
  chooseAnother: 'Choose another port',
  stop: 'Leave the scale',

  settings: 'How the scale sends',
  settingsHint: 'As in the scale’s own menu or manual.',
  speed: 'Speed (baud)',
  dataBits: 'Data bits',
  parity: 'Parity',
  parities: { none: 'None', even: 'Even', odd: 'Odd' },
  stopBits: 'Stop bits',
  request: 'Asked with',
  requestHint: 'Empty if it sends by itself. Often W\\r; \\r stands for Enter.',

  lines: 'What it sends',
  noLines: 'Nothing yet.',
  learn: 'Show it where the weight is',
  learnHint:
    'Put something on the scale, hold a line, and mark the digits of the weight in it, with the mouse or with Shift and the arrows.',
  hold: 'Hold the newest line',
  line: 'The line',
  unit: 'Unit, if the line has none',
  unitNone: 'In the line',
  decimals: 'Digits behind the point, if the line has no point',
  decimalsNone: 'In the line',
  learnIt: 'Read it like this',
  forget: 'Forget what was learned',
  learned: 'The lines are read as you showed.',
  read: (typed: string) => `Reads as ${typed}.`,

  linuxGroup:
    'On Linux your account must belong to the group that may use serial ports (dialout, on Arch uucp). In a terminal: sudo usermod -aG dialout $USER, then log out and in again.',

  practiceHint: 'Not a real scale: for learning the keys. It is gone when the window closes.',
  practiceOn: 'Use the practice scale',
  practiceWeight: 'On the practice scale',
  practiceMoving: 'It moves',
} as const;

const STATES: Readonly<Record<Shown['state'], string>> = {
  none: scaleText.none,
  connected: 'Connected. No weight yet.',
  reading: 'At rest.',
  unstable: 'Moving. Wait until it rests.',
  overload: 'Too heavy: take some off.',
  gone: 'The scale is gone. Check its cable; typing works as always.',
};

/** Errors of the connection; errors of a line are among the problems. */
const PROBLEMS: Readonly<Record<string, string>> = {
  'scale.silent': 'The scale sends nothing any more. Check that it is switched on.',
  'port.shut': 'The port could not be opened. Another program may hold it, or the cable is out.',
};

/** The state of a scale as one sentence. */
export function scaleSentence({ state, weight, range, problem }: Shown, format: Format): string {
  if (problem) return scaleProblem(problem, format);
  if (state === 'overload' && range === 'under')
    return 'Below what this scale can show. Zero it with its own key.';
  if (state === 'reading' && weight?.digits === 0) return 'Nothing on the scale.';
  if (state === 'reading' && weight?.sign === -1) return 'Below zero. Zero the scale with its own key.';
  return STATES[state];
}

/** A rejected line or marking as a message. */
export function scaleProblem(problem: ScaleProblem, format: Format): string {
  return PROBLEMS[problem.code] ?? problemMessage({ kind: 'invalid', ...problem }, format);
}
