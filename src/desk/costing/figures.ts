/** The shop's running costs as typed, or the supplied example. */
import * as v from 'valibot';
import exampleJson from '../../../resources/example-costs.json' with { type: 'json' };
import { parseMoney } from '../../core/values/money.ts';
import { ValidationError } from '../../core/values/validation-error.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import { by, packageGrams, text } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { readSetting } from '../session/settings.ts';
import type { CostFigures, ServiceCode } from '../contract/contract.ts';
import { typedGrams } from '../input/typed-grams.ts';

export const SERVICES: readonly ServiceCode[] = ['cutting', 'grinding', 'products'];

/** Assumptions for figures without weighings: invented, replaced by the first weighings. */
export const ASSUMED = exampleJson.weighed;

const KEY = 'costing';
const MAX_MINUTES = 999;

const servicesTyped = v.object({
  minutesPerAnimal: text(20),
  /** Per pound or kilogram, the shop's unit. */
  minutesPerUnit: text(20),
  packageSize: text(30),
});

/** The form as typed: money and minutes as text, package sizes as weights. */
export const figuresTyped = v.object({
  wagePerHour: text(30),
  overheadPerHour: text(30),
  packagingPerPackage: text(30),
  /** Per pound or kilogram, the shop's unit; empty: none. */
  ingredientsPerUnit: v.optional(text(30), ''),
  wantedMargin: v.pipe(
    v.number('margin.range'),
    v.minValue(0, 'margin.range'),
    v.maxValue(0.9, 'margin.range'),
  ),
  services: v.object({ cutting: servicesTyped, grinding: servicesTyped, products: servicesTyped }),
  by,
});

const amount = v.pipe(v.number(), v.finite(), v.minValue(0));
const serviceSchema = v.object({ minutesPerAnimal: amount, minutesPerKg: amount, packageGrams: amount });
const figuresSchema = v.object({
  wagePerHour: amount,
  overheadPerHour: amount,
  packagingPerPackage: amount,
  // Figures saved before recipes were counted lack it.
  ingredientsPerKg: v.optional(amount, 0),
  wantedMargin: amount,
  services: v.object({ cutting: serviceSchema, grinding: serviceSchema, products: serviceSchema }),
});

/** @returns the current figures, and whether they are the shop's own */
export function figuresOf(session: Session): { own: boolean; figures: CostFigures } {
  const stored = readSetting(session.book, KEY, figuresSchema);
  if (stored) return { own: true, figures: stored };
  const { wagePerHour, overheadPerHour, packagingPerPackage, ingredientsPerKg, wantedMargin, services } =
    exampleJson;
  return {
    own: false,
    figures: {
      wagePerHour,
      overheadPerHour,
      packagingPerPackage,
      ingredientsPerKg,
      wantedMargin,
      services,
    },
  };
}

/** @throws ValidationError `money.*`, `reading.*`; ProblemError `money.negative`, `minutes.range`, `package.size` */
export function readFigures(session: Session, typed: v.InferOutput<typeof figuresTyped>): CostFigures {
  const { currency, unit } = session.settings;
  const money = (
    field: 'wagePerHour' | 'overheadPerHour' | 'packagingPerPackage' | 'ingredientsPerUnit',
  ): number => typedMoney(typed[field], currency, field);
  const service = (code: ServiceCode): CostFigures['services'][ServiceCode] => {
    const { minutesPerAnimal, minutesPerUnit, packageSize } = typed.services[code];
    const at = (field: string): string => `services.${code}.${field}`;
    const grams = typedGrams(packageSize, unit, at('packageSize'));
    if (!v.is(packageGrams, grams))
      throw new ProblemError('invalid', 'package.size', { field: at('packageSize') });
    return {
      minutesPerAnimal: minutesOf(minutesPerAnimal, at('minutesPerAnimal')),
      minutesPerKg: (minutesOf(minutesPerUnit, at('minutesPerUnit')) * 1000) / GRAMS_PER[unit],
      packageGrams: grams,
    };
  };
  return {
    wagePerHour: money('wagePerHour'),
    overheadPerHour: money('overheadPerHour'),
    packagingPerPackage: money('packagingPerPackage'),
    ingredientsPerKg:
      typed.ingredientsPerUnit === '' ? 0 : (money('ingredientsPerUnit') * 1000) / GRAMS_PER[unit],
    wantedMargin: typed.wantedMargin,
    services: { cutting: service('cutting'), grinding: service('grinding'), products: service('products') },
  };
}

export function saveFigures(session: Session, figures: CostFigures, initials: string): void {
  const { own, figures: before } = figuresOf(session);
  session.book.settings.put(KEY, figures);
  session.book.audit.note({
    record: 'setting',
    recordId: KEY,
    act: own ? 'change' : 'add',
    ...(own && { before }),
    after: figures,
    at: session.now(),
    by: initials,
  });
}

function minutesOf(typed: string, field: string): number {
  const minutes = /^\d{1,3}(?:[.,]\d{1,4})?$/.test(typed) ? Number(typed.replace(',', '.')) : NaN;
  if (!(minutes >= 0 && minutes <= MAX_MINUTES))
    throw new ProblemError('invalid', 'minutes.range', { field, with: { typed } });
  return minutes;
}

/**
 * Minor units of an amount typed into a separate field, 0 or more.
 * @throws ValidationError `money.*` and ProblemError `money.negative`, naming that field
 * @example typedMoney('$22.50', 'USD', 'wage') // 2250
 */
function typedMoney(text: string, currency: string, field: string): number {
  const minor = readMoney(text, currency, field);
  if (minor < 0) throw new ProblemError('invalid', 'money.negative', { field });
  return minor;
}

function readMoney(text: string, currency: string, field: string): number {
  try {
    return parseMoney(text, currency);
  } catch (error) {
    throw error instanceof ValidationError
      ? new ValidationError(error.code, field, { ...error.with })
      : error;
  }
}
