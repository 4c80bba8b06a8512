import type { FlowReport } from '../../bridge/contract.ts';
import { flowText as text } from '../texts/en/season/flow.ts';
import type { Format } from '../texts/format.ts';

/** The backlog in sentences; empty parts are not named. */
export function backlogSentence(backlog: FlowReport['backlog'], format: Format): string {
  const { animals, grams, unweighed, hours, trimGrams, grindHours } = backlog;
  const trim = format.weighs(trimGrams);
  if (animals === 0 && !trim) return format.unit === 'lb' ? text.backlogNone : text.backlogNoneKilo;
  return [
    ...(animals > 0 ? [text.backlog(animals, format.mass(grams, 0), hoursText(hours, format))] : []),
    ...(unweighed > 0 ? [text.backlogUnweighed(unweighed)] : []),
    ...(trim ? [text.backlogTrim(format.mass(trimGrams, 0), hoursText(grindHours, format))] : []),
  ].join(' ');
}

/** Hours to a tenth below ten, rounded above. @example hoursText(3.24, format) // '3.2' */
export function hoursText(hours: number, format: Format): string {
  return format.number(hours, hours > 0 && hours < 10 ? 1 : 0);
}
