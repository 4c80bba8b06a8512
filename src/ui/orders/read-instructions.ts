import type { Instructions, PrimalOrder } from '../../bridge/contract.ts';
import { wholeCutsShare, type PrimalShare } from '../../core/species/cutting.ts';
import { readingGrams } from '../../core/values/reading.ts';
import { readingIn } from '../parts/weight-echo.ts';
import { text as ordersText } from '../../words/compiled/window/orders.ts';
import { readPercent } from '../texts/percent.ts';
import { sizeText } from './cut-sizes.ts';
import type { TypedGrind, TypedInstructions } from './instructions-form.ts';

/** A message for each invalid field: `cuts`, `target`, `pack`, `also.0.trim` … */
export type WrongInstructions = Readonly<Record<string, string>>;

const { wrong: say } = ordersText;
/** The desk's limits for a patty, in grams. */
const PATTY_GRAMS = { least: 20, most: 500 };
const FAT = { least: 0.005, most: 0.6 };

/**
 * Parses the fields. `wrong` holds a message for each invalid field; `value` is null while there is one.
 * @param there the received primals with their shares; empty while the species is unknown
 */
export function readInstructions(
  typed: TypedInstructions,
  unit: 'lb' | 'kg',
  there: readonly PrimalShare[] = [],
): { value: Instructions | null; wrong: WrongInstructions } {
  const wrong: Record<string, string> = {};
  const primals = primalOrders(typed, unit, there);
  const cutsShare = primals.length > 0 ? wholeCutsShare(there, primals) : readPercent(typed.cuts);
  if (cutsShare === null) wrong['cuts'] = say.percent;

  const grams = (text: string, field: string, example: string): number => {
    const reading = readingIn(text, unit);
    if (!reading) wrong[field] = say.weight({ example });
    return reading ? readingGrams(reading) : 0;
  };
  const grind = (one: TypedGrind, at: string) => {
    if (one.product.trim() === '') wrong[`${at}product`] = say.product;
    const hasTarget = one.fat !== 'none' && one.target.trim() !== '';
    const targetFat = hasTarget ? readPercent(one.target) : null;
    if (hasTarget && (targetFat === null || targetFat < FAT.least || targetFat > FAT.most))
      wrong[`${at}target`] = say.target;
    const example = unit === 'lb' ? '4 oz' : '120 g';
    const pattyGrams = one.patty.trim() === '' ? null : grams(one.patty, `${at}patty`, example);
    if (pattyGrams !== null && (pattyGrams < PATTY_GRAMS.least || pattyGrams > PATTY_GRAMS.most))
      wrong[`${at}patty`] = say.weight({ example });
    return {
      product: one.product.trim(),
      fat: one.fat,
      targetFat,
      pattyGrams,
      recipeId: one.recipe ?? undefined,
    };
  };

  const { product: grindProduct, ...main } = grind(typed, '');
  const alsoGround = typed.also.map((one, i) => ({
    ...grind(one, `also.${i}.`),
    grams: grams(one.trim, `also.${i}.trim`, unit === 'lb' ? '10 lb' : '5 kg'),
  }));
  const packageGrams = grams(typed.pack, 'pack', unit === 'lb' ? '1 lb' : '0.5 kg');
  if (Object.keys(wrong).length > 0 || cutsShare === null) return { value: null, wrong };
  const extras = typed.extras
    .split(',')
    .map((one) => one.trim())
    .filter(Boolean);
  const note = typed.note.trim();
  return {
    wrong,
    value: {
      cutsShare,
      primals,
      ...main,
      grindProduct,
      alsoGround,
      packageGrams,
      pricedExtras: { ...typed.pricedExtras },
      extras,
      note,
    },
  };
}

/** Instructions for the received primals; an untouched form by primals grinds all of them. */
function primalOrders(
  { by, primals }: TypedInstructions,
  unit: 'lb' | 'kg',
  there: readonly PrimalShare[],
): PrimalOrder[] {
  if (by === 'share') return [];
  const orders = there.flatMap(({ code }): PrimalOrder[] => {
    const order = primals[code];
    if (!order) return [];
    return [
      { primal: code, as: order.as, size: order.as === 'grind' ? '' : sizeText(order.size, order.as, unit) },
    ];
  });
  return orders.length > 0 ? orders : there.map(({ code }) => ({ primal: code, as: 'grind', size: '' }));
}
