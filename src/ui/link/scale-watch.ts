/** The state of a scale, derived from the lines that it sent. */
import {
  isSteady,
  parseScaleLine,
  type ScaleForm,
  type ScaleLine,
  type ScaleWeight,
  type TimedWeight,
} from '../../core/scale/line.ts';
import { readingGrams, readingStepGrams } from '../../core/values/reading.ts';

/** `none`: no scale; `connected`: no readable lines; `gone`: its port was disconnected. */
type ScaleState = 'none' | 'connected' | 'reading' | 'unstable' | 'overload' | 'gone';

/** An error, as a code of the core or of this folder, with the parameters of its message. */
export interface ScaleProblem {
  code: string;
  with?: Readonly<Record<string, string | number>>;
}

export interface Shown {
  state: ScaleState;
  /** The current weight; null if there is none. */
  weight: ScaleWeight | null;
  range: 'over' | 'under' | null;
  problem: ScaleProblem | null;
}

/** Without a readable line for this long the weight is unknown. */
const SILENT_MS = 2500;
/** Stability rule for a scale that does not report it. Common practice, no source. */
const REST = { least: 3, overMs: 800 };
/** Readings kept for that rule; a scale sends up to about 20 per second. */
const KEPT = 64;

/** Creates the watch of one connection. Times are milliseconds of any monotonic clock. */
export function makeWatch(form: ScaleForm | null) {
  let newest: { line: ScaleLine; at: number } | null = null;
  let problem: ScaleProblem | null = null;
  let weights: TimedWeight[] = [];

  function rests(weight: ScaleWeight): boolean {
    if (weight.stable !== null) return weight.stable;
    return isSteady(weights, { ...REST, stepGrams: readingStepGrams(weight) });
  }

  return {
    hear(text: string, at: number): void {
      try {
        const line = parseScaleLine(text, form);
        newest = { line, at };
        problem = null;
        weights = line.overload
          ? []
          : [...weights, { grams: line.sign * readingGrams(line), at }].slice(-KEPT);
      } catch (error) {
        problem = problemOf(error);
      }
    },
    damage(): void {
      problem = { code: 'scale.noise' };
    },
    shownAt(at: number): Shown {
      const empty = { weight: null, range: null, problem: null };
      // A single unreadable line between two good ones is no error; only unreadable lines are.
      if (!newest || at - newest.at > SILENT_MS)
        return {
          ...empty,
          state: 'connected',
          problem: problem ?? (newest ? { code: 'scale.silent' } : null),
        };
      const { line } = newest;
      if (line.overload) return { ...empty, state: 'overload', range: line.range };
      return { ...empty, state: rests(line) ? 'reading' : 'unstable', weight: line };
    },
  };
}

/** An error of the core as plain data; any other error is a bug and is rethrown. */
export function problemOf(error: unknown): ScaleProblem {
  if (!(error instanceof Error && 'code' in error && 'with' in error)) throw error;
  return { code: String(error.code), with: error.with as ScaleProblem['with'] };
}
