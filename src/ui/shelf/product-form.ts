import type { CallInput, ProductKind, ProductOnShelf } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/books/shelf.ts';
import { massTyped } from '../orders/instructions-form.ts';
import { percentText, readPercent } from '../texts/percent.ts';

/** No preset fat: as the hunter orders. */
export const AS_ORDERED = '';

/** A product as text fields, so that invalid input is not lost. */
interface TypedProduct {
  name: string;
  kind: ProductKind;
  fat: string;
  target: string;
  package: string;
  patty: string;
  ingredients: string;
}

/** An empty form for a new product. */
export function emptyProduct(): TypedProduct {
  return { name: '', kind: 'grind', fat: AS_ORDERED, target: '', package: '', patty: '', ingredients: '' };
}

/** A product of the shelf as editable text. Patties are in ounces or grams. */
export function typeProduct(row: ProductOnShelf, unit: 'lb' | 'kg'): TypedProduct {
  const { name, kind, fat, targetFat, packageGrams, pattyGrams, ingredients } = row;
  return {
    name,
    kind,
    fat: fat ?? AS_ORDERED,
    target: targetFat === null ? '' : percentText(targetFat),
    package: packageGrams === null ? '' : massTyped(packageGrams, unit),
    patty: pattyGrams === null ? '' : massTyped(pattyGrams, unit === 'lb' ? 'oz' : 'g'),
    ingredients,
  };
}

/** Whether this fat allows a target percentage. */
export function hasTarget(fat: string): boolean {
  return fat !== AS_ORDERED && fat !== 'none';
}

/**
 * Parses the fields for `products.save`; `value` is null while any is invalid. Unchanged weights are left out, so
 * that rounding does not change them.
 * @param row the product to change, or null for a new one
 */
export function readProduct(
  typed: TypedProduct,
  row: ProductOnShelf | null,
  unit: 'lb' | 'kg',
): { value: CallInput<'products.save'> | null; wrong: { name?: string; target?: string } } {
  const target = hasTarget(typed.fat) && typed.target.trim() !== '' ? readPercent(typed.target) : null;
  const unread = hasTarget(typed.fat) && typed.target.trim() !== '' && target === null;
  const wrong = {
    ...(typed.name.trim() === '' && { name: text.nameProblem }),
    ...((unread || (target !== null && (target < 0.005 || target > 0.6))) && { target: text.targetProblem }),
  };
  if (Object.keys(wrong).length > 0) return { value: null, wrong };
  const before = row && typeProduct(row, unit);
  return {
    wrong,
    value: {
      ...(row && { code: row.code }),
      name: typed.name,
      kind: typed.kind,
      fat: typed.fat === AS_ORDERED ? null : typed.fat,
      targetFat: target,
      ...(before?.package !== typed.package && { packageTyped: typed.package }),
      ...(before?.patty !== typed.patty && { pattyTyped: typed.patty }),
      ingredients: typed.ingredients,
    },
  };
}
