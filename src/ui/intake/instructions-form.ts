import type { FatChoice, Instructions } from '../../bridge/contract.ts';
import { readingGrams } from '../../core/reading.ts';
import { GRAMS_PER } from '../../core/units.ts';
import { readingIn } from '../parts/weight-echo.ts';
import { percentText, readPercent } from '../texts/percent.ts';

/** Cutting instructions as they stand in the fields: text, so that nothing typed is lost while it is wrong. */
export interface TypedInstructions {
  cuts: string;
  fat: FatChoice;
  target: string;
  product: string;
  pack: string;
  extras: string;
  note: string;
}

/** What a shop does when nobody says otherwise: 40 % steaks and roasts, lean ground, one-pound or half-kilo packs. */
export function usualInstructions(unit: 'lb' | 'kg'): TypedInstructions {
  const pack = unit === 'lb' ? '1 lb' : '0.5 kg';
  return { cuts: '40', fat: 'none', target: '', product: 'Ground', pack, extras: '', note: '' };
}

/** Stored instructions as editable text. */
export function typeInstructions(stored: Instructions, unit: 'lb' | 'kg'): TypedInstructions {
  return {
    cuts: percentText(stored.cutsShare),
    fat: stored.fat,
    target: stored.targetFat === null ? '' : percentText(stored.targetFat),
    product: stored.grindProduct,
    pack: `${Number((stored.packageGrams / GRAMS_PER[unit]).toFixed(2))} ${unit}`,
    extras: stored.extras.join(', '),
    note: stored.note,
  };
}

export type WrongInstructions = Partial<Record<'cuts' | 'target' | 'product' | 'pack', string>>;

/** Reads the fields. `wrong` holds a sentence for each field that cannot be read; `value` is null while any is. */
export function readInstructions(
  typed: TypedInstructions,
  unit: 'lb' | 'kg',
): { value: Instructions | null; wrong: WrongInstructions } {
  const wrong: WrongInstructions = {};
  const cutsShare = readPercent(typed.cuts);
  if (cutsShare === null) wrong.cuts = 'Type a percentage from 0 to 100.';
  const targetFat = typed.fat === 'none' || typed.target.trim() === '' ? null : readPercent(typed.target);
  if (
    typed.fat !== 'none' &&
    typed.target.trim() !== '' &&
    (targetFat === null || targetFat < 0.005 || targetFat > 0.6)
  )
    wrong.target = 'Type a fat percentage from 0.5 to 60, or leave it empty.';
  const pack = readingIn(typed.pack, unit);
  if (!pack) wrong.pack = `Type a weight, for example ${unit === 'lb' ? '1 lb' : '0.5 kg'}.`;
  if (typed.product.trim() === '') wrong.product = 'Say what it is called, for example Ground.';
  if (Object.keys(wrong).length > 0 || cutsShare === null || !pack) return { value: null, wrong };
  return {
    wrong,
    value: {
      cutsShare,
      primals: [],
      fat: typed.fat,
      targetFat,
      grindProduct: typed.product.trim(),
      pattyGrams: null,
      alsoGround: [],
      packageGrams: readingGrams(pack),
      extras: typed.extras
        .split(',')
        .map((one) => one.trim())
        .filter(Boolean),
      note: typed.note.trim(),
    },
  };
}
