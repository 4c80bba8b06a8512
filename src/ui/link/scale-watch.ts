/** What a scale shows at a moment, from the lines that it sent. */
import {
  isSteady,
  parseScaleLine,
  type ScaleForm,
  type ScaleLine,
  type ScaleWeight,
  type TimedWeight,
} from '../../core/scale/line.ts';
import { readingGrams, readingStepGrams } from '../../core/values/reading.ts';

/** `none`: no scale is used; `connected`: it says nothing that can be read; `gone`: its port went away. */
type ScaleState = 'none' | 'connected' | 'reading' | 'unstable' | 'overload' | 'gone';

/** What is wrong, as a code of the core or of this folder, with what is needed to word it. */
export interface ScaleProblem {
  code: string;
  with?: Readonly<Record<string, string | number>>;
}

export interface Shown {
  state: ScaleState;
  /** On the scale now; null where there is nothing to show. */
  weight: ScaleWeight | null;
  range: 'over' | 'under' | null;
  problem: ScaleProblem | null;
}

/** Longer than this without a line that can be read: nobody knows what is on the scale. */
const SILENT_MS = 2500;
/** Rest of a scale that does not say so itself. Common practice, no source. */
const REST = { least: 3, overMs: 800 };
/** Readings kept to judge rest by; a scale sends up to some 20 a second. */
const KEPT = 64;

/** Makes the watch over one connection. Times are milliseconds of any steady clock. */
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
      // One line lost between two good ones is no trouble; nothing but such lines is.
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

/** A refusal of the core as plain data; anything else is a fault of ours and must not be hidden. */
export function problemOf(error: unknown): ScaleProblem {
  if (!(error instanceof Error && 'code' in error && 'with' in error)) throw error;
  return { code: String(error.code), with: error.with as ScaleProblem['with'] };
}
