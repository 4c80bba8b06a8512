import { plural } from '../plural.ts';

/** Texts of a cooler's page: logger files and the printed record. */
export const coolerText = {
  open: 'Log and record',
  openOf: (cooler: string) => `Log and record of ${cooler}`,
  heading: 'Temperatures',
  from: 'From',
  to: 'To',
  print: 'Print the record',
  days: 'Days of the record',

  file: 'Import logger file',
  fileHint: 'The readings of a temperature logger as CSV: a day, a time and a temperature in each row.',
  choose: 'File',
  reading: 'Reading the file …',
  degrees: 'Temperatures in',
  fahrenheit: '°F',
  celsius: '°C',
  dates: 'In a date comes first',
  month: 'the month',
  day: 'the day',
  found: (name: string, fresh: number, known: number) =>
    `${name}: ${plural(fresh, 'new reading', 'new readings')}${known > 0 ? `, ${known} in the book already` : ''}.`,
  span: (from: string, to: string, low: string, high: string) => `${from} to ${to}, ${low} to ${high}.`,
  example: 'The first of them',
  problems: (n: number) =>
    `${plural(n, 'row is', 'rows are')} not understood, so nothing can be imported yet. Fix the file and choose it again.`,
  row: (row: number, problem: string) => `Row ${row}: ${problem}`,
  bringIn: (n: number) => `Import ${plural(n, 'reading', 'readings')}`,
  done: (n: number) => `${plural(n, 'reading is', 'readings are')} in the book.`,
  undone: (name: string) => `${name} is voided.`,
  files: 'Files brought in',
  fileName: 'File',
  count: 'Readings',
  when: 'When, who',
  undo: 'Void',
  undoOf: (name: string) => `Void ${name}`,
  wasUndone: 'voided',

  title: (cooler: string) => `Temperatures of ${cooler}`,
  span2: (from: string, to: string) => `${from} to ${to}`,
  summary: (n: number, limit: string, span: string | null) =>
    `${plural(n, 'reading', 'readings')}. The limit is ${limit}; ${span ? `above it for ${span} in all` : 'it was never above it'}, on straight lines between readings.`,
  none: 'Nothing was read in these days.',
  byDay: 'Day by day',
  dayName: 'Day',
  lowest: 'Lowest',
  highest: 'Highest',
  above: 'Above the limit',
  gaps: 'Times without a reading',
  gap: (from: string, to: string, span: string) => `${from} to ${to}: ${span}`,
  noGaps: 'None longer than 16 hours.',
  byHand: 'Read by hand',
  logger: 'Read by a logger',
  fileLine: (file: string, n: number, when: string, by: string) =>
    `${file}: ${plural(n, 'reading', 'readings')}, brought in ${when}${by ? `, ${by}` : ''}`,
  hand: (when: string, typed: string, by: string) => `${when}: ${typed}${by ? `, ${by}` : ''}`,
  takenBack: 'Voided',
  taken: (when: string, typed: string, reason: string, by: string) =>
    `${when}: ${typed}; ${reason}${by ? `, ${by}` : ''}`,
  signed: 'Seen by, date',
};
