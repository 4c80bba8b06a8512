import * as v from 'valibot';

/**
 * A slip's code as it stands in the book, of nine digits typed or scanned with or without dashes.
 * @example slipCodeIn('483201957') // '483-201-957'
 */
export function slipCodeIn(typed: string): string | null {
  const digits = /^\s*(\d{3})[-\s]?(\d{3})[-\s]?(\d{3})\s*$/.exec(typed);
  return digits && digits.slice(1).join('-');
}

export const slipCode = v.pipe(
  v.string('slip.unreadable'),
  v.maxLength(20, 'slip.unreadable'),
  v.transform((typed) => slipCodeIn(typed) ?? ''),
  v.minLength(11, 'slip.unreadable'),
);
