import { languageLines, type Language } from '../../words/languages.ts';
import { isDate } from '../../core/values/dates.ts';

/** The order in which dates are written and typed. */
export type DayOrder = 'month first' | 'day first' | 'year first';

/**
 * The usual order of a locale.
 * @example orderOf('en-GB') // 'day first'
 */
export function orderOf(locale: string): DayOrder {
  const parts = new Intl.DateTimeFormat(locale, {
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
  }).formatToParts();
  const first = parts.find(({ type }) => type === 'year' || type === 'month' || type === 'day')?.type;
  return first === 'month' ? 'month first' : first === 'day' ? 'day first' : 'year first';
}

/**
 * The locale in whose words dates are written: the shop's if it is of the window's language, else that language.
 * @example dayLocale('en-GB', 'es-MX') // 'es-MX'
 */
export function dayLocale(locale: string, language: Language): string {
  const { generated } = languageLines[language] ?? {};
  const same = new Intl.Locale(locale).language === new Intl.Locale(language).language;
  return same || generated ? locale : language;
}

/** A date in digits, for editing: `2026-11-04` → `11/04/2026`, `04/11/2026` or unchanged. */
export function dayFigures(date: string, order: DayOrder): string {
  if (!isDate(date)) return date;
  const [year, month, day] = date.split('-');
  if (order === 'year first') return date;
  return order === 'month first' ? `${month}/${day}/${year}` : `${day}/${month}/${year}`;
}

/** November 27 as it may be typed, for a message. */
export function daySample(order: DayOrder): string {
  return order === 'day first' ? '27/11' : '11/27';
}

/** Formats dates and times. */
interface DayWriter {
  /** `Tue, Nov 24` */
  day: (date: string) => string;
  /** `Nov 24` */
  monthDay: (date: string) => string;
  /** Of `2026-11`. @example 'Nov 2026' */
  month: (month: string) => string;
  /** `Nov 24, 2026` */
  longDay: (date: string) => string;
  /** `Tue, Nov 24, 2026` */
  wholeDay: (date: string) => string;
  /** A UTC instant in a time zone: `Nov 24, 2:15 PM` */
  moment: (iso: string, zone: string) => string;
}

/** @param order null: the locale's. @param clock null: the locale's */
export function dayWriter(locale: string, order: DayOrder | null, clock: '12' | '24' | null): DayWriter {
  const hours = clock === null ? {} : ({ hourCycle: clock === '12' ? 'h12' : 'h23' } as const);
  const write = (shape: Intl.DateTimeFormatOptions, zone = 'UTC'): ((moment: Date) => string) => {
    const format = new Intl.DateTimeFormat(locale, { ...shape, timeZone: zone });
    if (order === null) return (moment) => format.format(moment);
    return (moment) => inOrder(format.formatToParts(moment), order);
  };
  const noon = (date: string): Date => new Date(`${date}T00:00:00Z`);
  const [day, monthDay, month, longDay, wholeDay] = [
    write({ weekday: 'short', day: 'numeric', month: 'short' }),
    write({ day: 'numeric', month: 'short' }),
    write({ month: 'short', year: 'numeric' }),
    write({ day: 'numeric', month: 'short', year: 'numeric' }),
    write({ weekday: 'short', day: 'numeric', month: 'short', year: 'numeric' }),
  ];
  function momentIn(zone: string): (at: Date) => string {
    const timeOfDay = { hour: 'numeric', minute: '2-digit', ...hours } as const;
    if (order === null) {
      const whole = write({ month: 'short', day: 'numeric', ...timeOfDay }, zone);
      return (at) => unbroken(whole(at));
    }
    const date = write({ month: 'short', day: 'numeric' }, zone);
    const time = new Intl.DateTimeFormat(locale, { ...timeOfDay, timeZone: zone });
    return (at) => `${date(at)}, ${unbroken(time.format(at))}`;
  }
  /** By time zone: a format takes far longer to make than a moment to write. */
  const moments = new Map<string, (at: Date) => string>();
  return {
    day: (date) => day(noon(date)),
    monthDay: (date) => monthDay(noon(date)),
    month: (yearMonth) => month(noon(`${yearMonth}-01`)),
    longDay: (date) => longDay(noon(date)),
    wholeDay: (date) => wholeDay(noon(date)),
    moment: (iso, zone) => {
      const written = moments.get(zone) ?? momentIn(zone);
      moments.set(zone, written);
      return written(new Date(iso));
    },
  };
}

/** A time of day on one line: Canadian French writes it with spaces, “6 h 41”, and the locale data lets them break. */
function unbroken(time: string): string {
  return time.replace(/(\d) h (\d)/, '$1\u00A0h\u00A0$2');
}

function inOrder(parts: Intl.DateTimeFormatPart[], order: DayOrder): string {
  const part = (type: Intl.DateTimeFormatPartTypes): string =>
    parts.find((one) => one.type === type)?.value ?? '';
  const [weekday, day, month, year] = [part('weekday'), part('day'), part('month'), part('year')];
  const date =
    order === 'month first'
      ? [month, year ? `${day},` : day, year]
      : order === 'day first'
        ? [day, month, year]
        : [year, month, day];
  const words = date.filter(Boolean).join(' ');
  return weekday ? `${weekday}, ${words}` : words;
}
