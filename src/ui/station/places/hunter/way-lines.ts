/** A way to cut as a hunter reads it: what each part becomes, and what of the price list it costs. Pure. */
import { ordersLines } from '../../../orders/orders-lines.ts';
import type { Format } from '../../../texts/format.ts';
import type { Sheet } from './check-in-form.ts';
import { text } from '../../../../words/compiled/shared/price-list.ts';

export type Way = Sheet['ways'][number];
export type SheetSpecies = Sheet['species'][number];
export type Price = NonNullable<Sheet['prices']>['lines'][number];

/** What each part becomes, in the hunter's language. */
export function cutLines(
  { instructions, made: [rest = '', ...first] }: Way,
  species: SheetSpecies,
  sheet: Sheet,
  format: Format,
): { head: string; text: string }[] {
  const said = {
    ...instructions,
    grindProduct: rest,
    alsoGround: instructions.alsoGround.map((one, at) => ({ ...one, product: first[at] ?? one.product })),
  };
  const fatSources = sheet.fats.map(({ code, title }) => ({ code, name: title }));
  const primals = species.primals.map(({ code, title }) => ({ code, name: title }));
  return ordersLines(said, primals, { fatSources, extras: [], recipes: [] }, format);
}

/** What is charged whatever the hunter picks, then what this way adds. */
export function pricesOf(way: Way | null, species: SheetSpecies, { prices }: Sheet): Price[] {
  const fats = way ? [way.instructions, ...way.instructions.alsoGround].map(({ fat }) => fat as string) : [];
  const charges = ({ basis, code, fat }: Price): boolean => {
    if (basis === 'product' || basis === 'trim') return way?.charges.includes(code) ?? false;
    if (basis === 'fat') return fat !== null && fats.includes(fat);
    return basis !== 'extra';
  };
  return (prices?.lines ?? []).filter(
    (line) => (line.species === null || line.species.includes(species.code)) && charges(line),
  );
}

/** Prices that are not of a weight say what they are for. */
const PER = ['animal', 'package', 'hour', 'minimum', 'deposit'] as const;

/** @example priceText(cutting, 'USD', format) // '$95.00 an animal' */
export function priceText(
  { basis, amountMinor, rate, unit, least }: Price,
  currency: string,
  format: Format,
): string {
  if (amountMinor === null)
    return text.per({
      price: format.share(rate ?? 0),
      per: basis === 'deposit' ? 'depositShare' : 'percent',
      least: null,
    });
  const price = format.money(amountMinor, currency);
  const weight = unit && (basis === 'trim' ? (`trim${unit}` as const) : unit);
  return text.per({
    price,
    least: least === null ? null : String(least),
    per: weight ?? PER.find((one) => one === basis) ?? 'other',
  });
}
