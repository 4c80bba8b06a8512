import type { PlanPart } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/grinder.ts';
import { partLabel } from '../texts/part-label.ts';

/** One term of the sum: all trim, or all fat that is added. Masses in grams. */
export interface PlanTerm {
  kind: 'trim' | 'fat';
  label: string;
  grams: number;
  /** What it is weighed out from, if that is more than one. */
  parts: readonly PlanPart[];
}

/** The sum of a batch: trim first, then fat; a kind that the plan lacks is no term. */
export function planTerms(parts: readonly PlanPart[]): PlanTerm[] {
  return (['trim', 'fat'] as const).flatMap((kind) => {
    const of = parts.filter((part) => part.kind === kind);
    const [first] = of;
    if (!first) return [];
    const label =
      of.length === 1
        ? partLabel(first)
        : kind === 'trim'
          ? text.trimOf({ animals: of.length })
          : text.fatOf({ lots: of.length });
    return [
      {
        kind,
        label,
        grams: of.reduce((sum, { grams }) => sum + grams, 0),
        parts: of.length === 1 ? [] : of,
      },
    ];
  });
}
