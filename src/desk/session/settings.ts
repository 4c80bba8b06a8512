import * as v from 'valibot';
import type { Book } from '../../book/book.ts';
import { HUNTER_LANGUAGES, type HunterLanguage } from '../../words/hunter-language.ts';
import { shownName } from '../../book/file/shown-name.ts';
import { isZone, knownZone } from '../../core/values/zone.ts';
import { listOf, needed, text } from '../input/input.ts';
import { GENERAL_SET, RECORD_FIELDS, RECORD_SETS, recordSetOf, requiredBy } from '../input/record-sets.ts';
import type { SettingReplaced, ShopSettings } from '../contract/contract.ts';

const days = v.pipe(
  v.number('days.range'),
  v.integer('days.range'),
  v.minValue(0, 'days.range'),
  v.maxValue(120, 'days.range'),
);

/** A page of small print, in letters. */
export const MAX_TERMS = 3000;
const MAX_PAYMENT_METHODS = 9;

/** Days after which a hunter who does not come is written to. */
const longDays = v.pipe(
  v.number('days.range'),
  v.integer('days.range'),
  v.minValue(1, 'days.range'),
  v.maxValue(365, 'days.range'),
);

const donationProgram = v.object({
  name: needed(80),
  paysMinor: v.pipe(
    v.number('money.unreadable'),
    v.integer('money.unreadable'),
    v.minValue(0, 'money.unreadable'),
    v.maxValue(1_000_000, 'money.unreadable'),
  ),
  paysUnit: v.picklist(['lb', 'kg'], 'choice.unit'),
});

/** The steps of small scales, grams. */
export const smallStep = v.picklist([0.01, 0.1, 0.2, 0.5, 1, 2, 5, 10], 'step.small');

const termsIn = Object.fromEntries(HUNTER_LANGUAGES.map((code) => [code, text(MAX_TERMS)])) as Record<
  HunterLanguage,
  ReturnType<typeof text>
>;

/** Schemas of the settings. */
export const settingSchemas = {
  shopName: needed(120),
  shopAddress: text(300),
  shopPhone: text(60),
  shopLicense: text(60),
  shopTaxNumber: text(60),
  terms: text(MAX_TERMS),
  dropOffTerms: text(MAX_TERMS),
  dropOffTermsIn: v.strictObject(termsIn),
  paymentMethods: v.pipe(
    listOf(needed(40), MAX_PAYMENT_METHODS),
    v.check((methods) => methods.includes('cash'), 'method.cash'),
    v.check((methods) => new Set(methods).size === methods.length, 'method.twice'),
  ),
  unit: v.picklist(['lb', 'kg'], 'choice.unit'),
  step: v.picklist([0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1], 'choice.step'),
  smallStep,
  currency: v.pipe(
    v.string('choice.currency'),
    v.maxLength(3, 'choice.currency'),
    v.regex(/^[A-Z]{3}$/, 'choice.currency'),
  ),
  locale: v.pipe(
    v.string('choice.locale'),
    v.maxLength(60, 'choice.locale'),
    v.check(isLocale, 'choice.locale'),
  ),
  dayOrder: v.picklist(['locale', 'month first', 'day first', 'year first'], 'input.invalid'),
  clock: v.picklist(['locale', '12', '24'], 'input.invalid'),
  zone: v.pipe(v.string('choice.zone'), v.maxLength(80, 'choice.zone'), v.check(isZone, 'choice.zone')),
  seasonStartsMonth: v.pipe(
    v.number('month.range'),
    v.integer('month.range'),
    v.minValue(1, 'month.range'),
    v.maxValue(12, 'month.range'),
  ),
  hangingReadyDays: days,
  hangingLimitDays: v.pipe(days, v.minValue(1, 'days.range')),
  coolerLimitC: v.pipe(
    v.number('temperature.range'),
    v.minValue(-5, 'temperature.range'),
    v.maxValue(10, 'temperature.range'),
  ),
  quoteValidDays: v.pipe(days, v.minValue(1, 'days.range')),
  pickupLimitDays: v.pipe(days, v.minValue(1, 'days.range')),
  pickupMessage: text(300),
  belongingKinds: listOf(needed(60), 40),
  unclaimedFirstDays: longDays,
  unclaimedSecondDays: longDays,
  unclaimedLastDays: longDays,
  donationPrograms: v.pipe(
    listOf(donationProgram, 20),
    v.check((all) => new Set(all.map(({ name }) => name)).size === all.length, 'program.twice'),
  ),
  detailEvery: v.pipe(
    v.number('count.range'),
    v.integer('count.range'),
    v.minValue(1, 'count.range'),
    v.maxValue(1000, 'count.range'),
  ),
  cutWhileHeld: v.boolean('input.invalid'),
  recordSet: v.picklist(
    RECORD_SETS.map(({ code }) => code),
    'choice.record-set',
  ),
  recordFields: listOf(v.picklist(RECORD_FIELDS, 'choice.record-field'), RECORD_FIELDS.length),
  retentionYears: v.pipe(
    v.number('retention.range'),
    v.integer('retention.range'),
    v.minValue(1, 'retention.range'),
    v.maxValue(50, 'retention.range'),
  ),
  lateDays: days,
  secondBackupFolder: text(1000),
  theme: v.picklist(['light', 'dark', 'system'], 'choice.theme'),
};

/** 40 °F in °C: the limit of the extension services for hanging and storing meat. */
const COOLER_LIMIT_C = 4.4;

/** Two weeks until pickup: common practice, no source. */
const PICKUP_LIMIT_DAYS = 14;

/** An entry on the day after arrival is still on time: common practice, no source. */
const LATE_DAYS = 1;

/** The longest period in a published list of `resources/record-fields.json` (Utah: three years). */
const RETENTION_YEARS = 3;

/** Days from ready to the first, second and last notice: common practice, no source. Local law may ask for more. */
const UNCLAIMED_DAYS = [14, 30, 60] as const;

const DEFAULTS: ShopSettings = {
  shopName: '',
  shopAddress: '',
  shopPhone: '',
  shopLicense: '',
  shopTaxNumber: '',
  terms: '',
  dropOffTerms: '',
  dropOffTermsIn: {},
  paymentMethods: ['cash', 'check', 'card', 'transfer', 'other'],
  unit: 'lb',
  step: 0.05,
  // Common practice, no source.
  smallStep: 1,
  currency: 'USD',
  locale: 'en-US',
  dayOrder: 'locale',
  clock: 'locale',
  zone: knownZone(Intl.DateTimeFormat().resolvedOptions().timeZone),
  seasonStartsMonth: 7,
  hangingReadyDays: 4,
  hangingLimitDays: 7,
  coolerLimitC: COOLER_LIMIT_C,
  quoteValidDays: 30,
  pickupLimitDays: PICKUP_LIMIT_DAYS,
  pickupMessage: '',
  belongingKinds: [],
  unclaimedFirstDays: UNCLAIMED_DAYS[0],
  unclaimedSecondDays: UNCLAIMED_DAYS[1],
  unclaimedLastDays: UNCLAIMED_DAYS[2],
  donationPrograms: [],
  detailEvery: 10,
  cutWhileHeld: false,
  recordSet: GENERAL_SET,
  recordFields: requiredBy(recordSetOf(GENERAL_SET)),
  retentionYears: RETENTION_YEARS,
  lateDays: LATE_DAYS,
  secondBackupFolder: '',
  theme: 'system',
};

/** A book's settings as used here. */
interface ReadSettings {
  settings: ShopSettings;
  /** Invalid settings that were replaced: written by another program, or by a computer that knows other zones. */
  replaced: SettingReplaced[];
}

/**
 * The settings of every screen; other keys are read with `readSetting`. An invalid setting is replaced by its
 * default, so that the program keeps working and the shop can correct it.
 */
export function readSettings(book: Book): ReadSettings {
  const settings: Record<string, unknown> = { ...DEFAULTS };
  const replaced: SettingReplaced[] = [];
  for (const [key, stored] of Object.entries(book.settings.all())) {
    if (!isSetting(key)) continue;
    if (v.is(settingSchemas[key], stored)) settings[key] = stored;
    else replaced.push({ setting: key, kept: worded(stored), used: worded(DEFAULTS[key]) });
  }
  return { settings: settings as unknown as ShopSettings, replaced };
}

/** The value under another key of the book, or undefined if missing or invalid. */
export function readSetting<S extends v.GenericSchema>(
  book: Book,
  key: string,
  schema: S,
): v.InferOutput<S> | undefined {
  const found = v.safeParse(schema, book.settings.all()[key]);
  return found.success ? found.output : undefined;
}

function isSetting(key: string): key is keyof ShopSettings {
  return Object.hasOwn(DEFAULTS, key);
}

function worded(value: unknown): string {
  return shownName(typeof value === 'string' ? value : JSON.stringify(value));
}

function isLocale(tag: string): boolean {
  try {
    return Intl.getCanonicalLocales(tag).length === 1;
  } catch {
    return false;
  }
}
