/**
 * Holds a composition against the standards of identity (`resources/composition-rules.json`). They name livestock and inspected
 * product: for an owner's game they are targets, so every finding is a note.
 */
import type { Sourced } from '../species/species.ts';
import { exceeds, type Finding } from './finding.ts';

export type StandardProduct = 'fresh-sausage' | 'cooked-sausage' | 'cooked-ham' | 'cooked-shoulder';

export interface CompositionRule extends Sourced {
  readonly code: string;
  readonly of: StandardProduct;
  /** `pff` is a floor of the protein-fat-free share, the others are ceilings. */
  readonly kind: 'fat' | 'water' | 'fat-and-water' | 'binder' | 'pff';
  readonly share: number;
  readonly asWritten: string;
}

/** Shares of the product that are known; `water` of fresh sausage is of all ingredients, of cooked sausage the added water. */
export interface Composition {
  readonly fat?: number;
  readonly water?: number;
  readonly binder?: number;
}

/** A note for each ceiling that is exceeded and can be computed. */
export function standardFindings(
  of: StandardProduct,
  composition: Composition,
  rules: readonly CompositionRule[],
): Finding<'composition.above'>[] {
  return rules
    .filter((rule) => rule.of === of && rule.kind !== 'pff')
    .flatMap((rule): Finding<'composition.above'>[] => {
      const share = shareOf(rule.kind, composition);
      if (share === undefined || !exceeds(share, rule.share)) return [];
      const told = { kind: rule.kind, share, limit: rule.share };
      return [{ code: 'composition.above', weight: 'note', with: told, rule: rule.code }];
    });
}

/**
 * The strictest protein-fat-free rule that a ham or shoulder meets, or null where it meets none: then its name says how much of it
 * is added ingredients.
 */
export function pffRule(
  of: StandardProduct,
  pff: number,
  rules: readonly CompositionRule[],
): CompositionRule | null {
  const met = rules.filter((rule) => rule.of === of && rule.kind === 'pff' && !exceeds(rule.share, pff));
  return met.toSorted((a, b) => b.share - a.share)[0] ?? null;
}

function shareOf(kind: CompositionRule['kind'], { fat, water, binder }: Composition): number | undefined {
  if (kind === 'fat') return fat;
  if (kind === 'water') return water;
  if (kind === 'binder') return binder;
  return fat === undefined || water === undefined ? undefined : fat + water;
}
