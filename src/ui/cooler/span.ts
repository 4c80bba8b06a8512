import { text } from '../../words/compiled/window/rail.ts';

/** A duration: `40 minutes`, `3 hours 10 min`. */
export function spanText(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return text.minutes({ minutes: whole });
  return text.hours({ hours: Math.floor(whole / 60), minutes: whole % 60 });
}
