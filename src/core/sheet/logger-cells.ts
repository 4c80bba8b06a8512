/** Reads the rows of a temperature logger's file: the columns of moment and temperature, and the values of cells. */
import { ValidationError } from '../values/validation-error.ts';

export type Degrees = 'F' | 'C';

export interface LoggerColumns {
  /** Lines above the first reading, headings included. */
  above: number;
  date: number;
  /** The column of the time; the same as `date` where one column has both. */
  time: number;
  temperature: number;
  /** As the heading says, or null. */
  degrees: Degrees | null;
}

const CLOCK = /(?:^|[T ,])(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)? ?([ap]\.?m\.?)?(Z|[+-]\d\d:?\d\d)?$/i;
const DAY = /\d{1,4}[-/. ]\d{1,2}[-/. ]\d{1,4}|\d{1,2}[ -.][a-z]{3,9}|[a-z]{3,9} \d{1,2},? \d/i;
const NUMBER = /^[+\-−]?\d{1,3}([.,]\d+)? ?°? ?[fc]?$/i;
/** A broken sensor may write more digits than any temperature has. */
const LONG_NUMBER = /^[+\-−]?\d{1,6}([.,]\d+)? ?°? ?[fc]?$/i;
/** Titles, serial numbers and settings above the readings. */
const MAX_ABOVE = 60;

/**
 * The columns by their headings, else by their values: the first row with a date, a time and a number begins the
 * readings. Of several numbers the one whose heading names a temperature is used, else the first after the moment.
 * @throws ValidationError `logger.columns` where no row looks like a reading
 */
export function guessLoggerColumns(rows: readonly (readonly string[])[]): LoggerColumns {
  for (const [above, cells] of rows.slice(0, MAX_ABOVE).entries()) {
    const time = cells.findIndex((cell) => CLOCK.test(cell.trim()));
    const date = cells.findIndex((cell) => DAY.test(cell.trim()));
    if (time < 0 || date < 0) continue;
    const numbers = cells.flatMap((cell, at) =>
      at !== time && at !== date && NUMBER.test(cell.trim()) ? [at] : [],
    );
    const heading = (at: number): string => rows[above - 1]?.[at] ?? '';
    const temperature =
      numbers.find((at) => /temp|°|deg|celsius|fahrenheit/i.test(heading(at))) ??
      numbers.find((at) => at > Math.max(time, date));
    if (temperature !== undefined)
      return { above, date, time, temperature, degrees: degreesOf(heading(temperature)) };
  }
  throw new ValidationError('logger.columns');
}

/** The scale that a heading or a cell names. @example degreesOf('Temperature (°F)') // 'F' */
export function degreesOf(text: string): Degrees | null {
  if (/fahrenheit|(°|deg\.?|º) ?f\b|[([ _,\d]f[)\]]?$/i.test(text.trim())) return 'F';
  return /celsius|centigrade|(°|deg\.?|º) ?c\b|[([ _,\d]c[)\]]?$/i.test(text.trim()) ? 'C' : null;
}

export interface LoggerClock {
  /** Seconds after midnight on the logger's clock. */
  seconds: number;
  /** Minutes that this clock is ahead of UTC, where the cell states it. */
  zoneMinutes: number | null;
}

/** The time of day of a cell, which may hold the date, too. @throws ValidationError `logger.clock` */
export function readLoggerClock(time: string): LoggerClock {
  const match = CLOCK.exec(time.trim());
  const [hour, minute, second] = [1, 2, 3].map((at) => Number(match?.[at] ?? 0)) as [number, number, number];
  const half = match?.[4]?.[0]?.toLowerCase();
  if (!match || minute > 59 || second > 59 || (half ? hour < 1 || hour > 12 : hour > 23))
    throw new ValidationError('logger.clock', undefined, { typed: time.trim().slice(0, 60) });
  const hours = half ? (hour % 12) + (half === 'p' ? 12 : 0) : hour;
  return {
    seconds: hours * 3600 + minute * 60 + second,
    zoneMinutes: zoneOf(match[5]),
  };
}

function zoneOf(text: string | undefined): number | null {
  if (!text) return null;
  if (/^z$/i.test(text)) return 0;
  const minutes = Number(text.slice(1, 3)) * 60 + Number(text.slice(-2));
  return text.startsWith('-') ? -minutes : minutes;
}

/**
 * The value of a cell as it stands, and its scale: for a product in an oven, where 999 or −40 is named as a broken sensor and not
 * refused. Null where the cell holds no number, such as `ERR`, `---` or nothing.
 * @example readLoggerValue('999', 'F') // { value: 999, degrees: 'F' }
 */
export function readLoggerValue(cell: string, column: Degrees): { value: number | null; degrees: Degrees } {
  const plain = cell.trim().replace('−', '-');
  const degrees = degreesOf(plain) ?? column;
  if (!LONG_NUMBER.test(plain)) return { value: null, degrees };
  return { value: Number.parseFloat(plain.replace(',', '.')), degrees };
}

/**
 * °C of a cell such as `36.5`, `2,4 °C` or `36.5F`; a unit in the cell overrides that of the column.
 * @throws ValidationError `temperature.unreadable`, `temperature.range` (no cooler is below −40 or above 60 °C)
 */
export function readLoggerDegrees(cell: string, column: Degrees): number {
  const plain = cell.trim().replace('−', '-');
  if (!NUMBER.test(plain))
    throw new ValidationError('temperature.unreadable', undefined, { typed: plain.slice(0, 60) });
  const value = Number.parseFloat(plain.replace(',', '.'));
  const celsius = (degreesOf(plain) ?? column) === 'F' ? ((value - 32) * 5) / 9 : value;
  if (celsius < -40 || celsius > 60)
    throw new ValidationError('temperature.range', undefined, { typed: plain.slice(0, 60) });
  return celsius;
}
