import { watch } from 'vue';
import type { Brought } from '../../bridge/contract.ts';
import { quartersOf } from '../../core/species/cutting.ts';

interface Counted {
  brought: Brought | '';
  parts: Record<string, number>;
}

/**
 * Prefills the counts of a quartered animal with two fronts and two hinds, the common case. Typed counts are kept;
 * prefilled counts, and counts of another kind of animal, are removed.
 */
export function usePrefilledQuarters(form: () => Counted, primals: () => readonly { code: string }[]): void {
  watch([() => form().brought, () => codesOf(primals()).join()], ([brought, codes], [, codesBefore]) => {
    const { parts } = form();
    const filledIn = quartersOf(codesBefore.split(',').map((code) => ({ code })));
    const otherKind = codes !== codesBefore && codesBefore !== '';
    if (otherKind || sameCounts(parts, {}) || sameCounts(parts, filledIn))
      form().parts = brought === 'quarters' ? quartersOf(primals()) : {};
  });
}

function codesOf(primals: readonly { code: string }[]): string[] {
  return primals.map(({ code }) => code);
}

function sameCounts(a: Record<string, number>, b: Record<string, number>): boolean {
  const counted = (counts: Record<string, number>): string =>
    JSON.stringify(
      Object.entries(counts)
        .filter(([, count]) => count !== 0)
        .toSorted(),
    );
  return counted(a) === counted(b);
}
