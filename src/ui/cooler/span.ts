import { text } from '../../words/compiled/window/rail.ts';

/** From this many hours on, days are easier to read. */
const IN_DAYS = 48;

/** A duration: `40 minutes`, `3 hours 10 min`, `15 days 6 hours`. */
export function spanText(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return text.minutes({ minutes: whole });
  if (whole >= IN_DAYS * 60) {
    const hours = Math.round(whole / 60);
    return text.daysHours({ days: Math.floor(hours / 24), hours: hours % 24 });
  }
  return text.hours({ hours: Math.floor(whole / 60), minutes: whole % 60 });
}
