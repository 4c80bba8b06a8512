import { watch } from 'vue';
import type { Brought } from '../../bridge/contract.ts';
import { quartersOf } from '../../core/species/cutting.ts';

interface Counted {
  brought: Brought | '';
  parts: Record<string, number>;
}

/**
 * Fills the counts of an animal in quarters with two fronts and two hinds, which is what mostly comes in. Counts that
 * somebody typed stay; counts that were only filled in, or are of another kind of animal, go.
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
