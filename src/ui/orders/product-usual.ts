import type { ProductCard } from '../../bridge/contract.ts';
import { percentText } from '../texts/percent.ts';
import { massTyped, type TypedInstructions } from './instructions-form.ts';

/** Ground products; kinds in the order of the shop's list. */
export function groundProducts(products: readonly ProductCard[]): ProductCard[] {
  return products.filter(({ kind }) => kind === 'grind' || kind === 'sausage' || kind === 'jerky');
}

/** A product's default composition as fields; values that the product leaves open are kept. */
export function usualOf(
  product: Pick<ProductCard, 'fat' | 'targetFat' | 'pattyGrams' | 'packageGrams'>,
  unit: 'lb' | 'kg',
): Partial<Pick<TypedInstructions, 'fat' | 'target' | 'patty' | 'pack'>> {
  const { fat, targetFat, pattyGrams, packageGrams } = product;
  return {
    ...(fat !== null && { fat, target: targetFat === null ? '' : percentText(targetFat) }),
    patty: pattyGrams === null ? '' : massTyped(pattyGrams, unit === 'lb' ? 'oz' : 'g'),
    ...(packageGrams !== null && { pack: massTyped(packageGrams, unit) }),
  };
}
