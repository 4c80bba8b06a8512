import { text } from '../../words/compiled/window/charges.ts';

/**
 * Working time, in minutes.
 * @example timeText(90) // '1 h 30 min'
 */
export function timeText(minutes: number): string {
  const [hours, rest] = [String(Math.floor(minutes / 60)), String(minutes % 60)];
  if (minutes < 60) return text.duration.minutes({ minutes: rest });
  return minutes % 60 === 0 ? text.duration.hours({ hours }) : text.duration.both({ hours, minutes: rest });
}
