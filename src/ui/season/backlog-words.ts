import type { FlowReport } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/season/flow.ts';
import type { Format } from '../texts/format.ts';

/** The backlog in sentences; empty parts are not named. */
export function backlogSentence(backlog: FlowReport['backlog'], format: Format): string {
  const { animals, grams, unweighed, hours, trimGrams, grindHours } = backlog;
  const trim = format.weighs(trimGrams);
  if (animals === 0 && !trim) return text.backlogNone;
  return [
    ...(animals > 0
      ? [text.backlog({ n: animals, mass: format.mass(grams, 0), hours: hoursText(hours, format) })]
      : []),
    ...(unweighed > 0 ? [text.backlogUnweighed({ n: unweighed })] : []),
    ...(trim
      ? [text.backlogTrim({ mass: format.mass(trimGrams, 0), hours: hoursText(grindHours, format) })]
      : []),
  ].join(' ');
}

/** Hours to a tenth below ten, rounded above. @example hoursText(3.24, format) // '3.2' */
export function hoursText(hours: number, format: Format): string {
  return format.number(hours, hours > 0 && hours < 10 ? 1 : 0);
}
