/** Cutting instructions as text fields, so that invalid input is not lost. */
import type { FatChoice, Instructions, PrimalUse } from '../../bridge/contract.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import { withMark } from '../texts/decimal-mark.ts';
import { percentText } from '../texts/percent.ts';
import { text as words } from '../../words/compiled/shared/common.ts';

/** One ground product; an empty `patty` means in bulk. */
export interface TypedGrind {
  product: string;
  fat: FatChoice;
  target: string;
  patty: string;
  /** The recipe that it names; null: the shop's of the product, if there is one. */
  recipe: number | null;
}

interface TypedAlso extends TypedGrind {
  /** The trim that goes into it. */
  trim: string;
}

export interface TypedInstructions extends TypedGrind {
  /** Whether the share of whole cuts is typed or derived from the primals. */
  by: 'share' | 'primals';
  cuts: string;
  /** By primal code; a missing primal is ground. */
  primals: Record<string, { as: PrimalUse; size: string }>;
  also: TypedAlso[];
  pack: string;
  /** Counts of the price book's extras, by code. */
  pricedExtras: Record<string, number>;
  /** Other wishes as a free-text note. */
  extras: string;
  note: string;
}

/** The shop's defaults: 40 % steaks and roasts, lean grind, packages of one pound or half a kilogram. */
export function usualInstructions(unit: 'lb' | 'kg'): TypedInstructions {
  return {
    by: 'share', cuts: '40', primals: {}, product: words.usualProduct.ground, fat: 'none', target: '', patty: '', recipe: null, also: [],
    pack: unit === 'lb' ? '1 lb' : withMark('0.5 kg'), pricedExtras: {}, extras: '', note: '',
  }; // prettier-ignore
}

/** An empty line for an additional ground product. */
export function emptyAlso(): TypedAlso {
  return { product: '', trim: '', fat: 'none', target: '', patty: '', recipe: null };
}

/** Stored instructions as editable text. */
export function typeInstructions(stored: Instructions, unit: 'lb' | 'kg'): TypedInstructions {
  return {
    by: stored.primals.length > 0 ? 'primals' : 'share',
    cuts: percentText(stored.cutsShare),
    primals: Object.fromEntries(stored.primals.map(({ primal, as, size }) => [primal, { as, size }])),
    product: stored.grindProduct,
    ...typeGrind(stored, unit),
    also: stored.alsoGround.map((also) => ({
      product: also.product,
      trim: massTyped(also.grams, unit),
      ...typeGrind(also, unit),
    })),
    pack: massTyped(stored.packageGrams, unit),
    pricedExtras: { ...stored.pricedExtras },
    extras: stored.extras.join(', '),
    note: stored.note,
  };
}

function typeGrind(
  {
    fat,
    targetFat,
    pattyGrams,
    recipeId,
  }: Pick<Instructions, 'fat' | 'targetFat' | 'pattyGrams' | 'recipeId'>,
  unit: 'lb' | 'kg',
): Omit<TypedGrind, 'product'> {
  return {
    fat,
    target: targetFat === null ? '' : percentText(targetFat),
    patty: pattyGrams === null ? '' : massTyped(pattyGrams, unit === 'lb' ? 'oz' : 'g'),
    recipe: recipeId ?? null,
  };
}

/**
 * A weight as editable text with the shop's decimal mark, to a hundredth of its unit.
 * @example massTyped(113.3980925, 'oz') // '4 oz'
 */
export function massTyped(grams: number, unit: 'lb' | 'kg' | 'oz' | 'g'): string {
  return withMark(`${Number((grams / GRAMS_PER[unit]).toFixed(2))} ${unit}`);
}
