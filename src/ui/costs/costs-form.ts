import type { CallInput, CostFigures, ServiceCode } from '../../bridge/contract.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import { moneyTyped, withMark } from '../texts/decimal-mark.ts';
import { percentText, readPercent } from '../texts/percent.ts';

export const SERVICES: readonly ServiceCode[] = ['cutting', 'grinding', 'products'];

type TypedService = CallInput<'costing.save'>['services'][ServiceCode];

/** The figures as text fields, so that invalid input is not lost. */
interface TypedCosts {
  wagePerHour: string;
  overheadPerHour: string;
  packagingPerPackage: string;
  ingredientsPerUnit: string;
  margin: string;
  services: Record<ServiceCode, Required<{ [K in keyof TypedService]: string }>>;
}

/**
 * Stored figures as editable text, in the shop's unit and currency.
 * @example typeCosts(figures, 'lb', 'USD').wagePerHour // '21.50'
 */
export function typeCosts(figures: CostFigures, unit: 'lb' | 'kg', currency: string): TypedCosts {
  const money = (minor: number): string => moneyTyped(minor, currency);
  const service = (code: ServiceCode): TypedCosts['services'][ServiceCode] => {
    const { minutesPerAnimal, minutesPerKg, packageGrams } = figures.services[code];
    return {
      minutesPerAnimal: short(minutesPerAnimal),
      minutesPerUnit: short((minutesPerKg * GRAMS_PER[unit]) / 1000),
      packageSize: `${unambiguous(short(packageGrams / GRAMS_PER[unit]))} ${unit}`,
    };
  };
  return {
    wagePerHour: money(figures.wagePerHour),
    overheadPerHour: money(figures.overheadPerHour),
    packagingPerPackage: money(figures.packagingPerPackage),
    ingredientsPerUnit: money(Math.round((figures.ingredientsPerKg * GRAMS_PER[unit]) / 1000)),
    margin: percentText(figures.wantedMargin),
    services: { cutting: service('cutting'), grinding: service('grinding'), products: service('products') },
  };
}

/** The fields as input of the desk; null for an invalid margin. The desk parses the others. */
export function readCosts(typed: TypedCosts): CallInput<'costing.save'> | null {
  const { margin, ...rest } = typed;
  const wantedMargin = readPercent(margin);
  return wantedMargin === null ? null : { ...rest, wantedMargin };
}

/** A number without the digits that come from unit conversion. */
function short(value: number): string {
  return withMark(String(Math.round(value * 1000) / 1000));
}

/** A weight of three decimals keeps its point: `1,234 kg` may be read as 1234 kg. */
function unambiguous(number: string): string {
  return /^[1-9]\d{0,2},\d{3}$/.test(number) ? number.replace(',', '.') : number;
}
