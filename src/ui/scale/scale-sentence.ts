import type { ScaleProblem, Shown } from '../link/scale-watch.ts';
import { text } from '../../words/compiled/window/scale.ts';
import type { Format } from '../texts/format.ts';
import { problemMessage } from '../texts/problem-message.ts';

/** The state of a scale as one sentence. */
export function scaleSentence({ state, weight, range, problem }: Shown, format: Format): string {
  if (problem) return scaleProblem(problem, format);
  if (state === 'overload' && range === 'under') return text.underload;
  if (state === 'reading' && weight?.digits === 0) return text.empty;
  if (state === 'reading' && weight?.sign === -1) return text.negative;
  return text.state[state];
}

/** A rejected line or marking, or a connection that failed, as a message. */
export function scaleProblem(problem: ScaleProblem, format: Format): string {
  return problemMessage({ kind: 'invalid', ...problem }, format);
}
