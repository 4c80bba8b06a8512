import type { Caution } from '../../bridge/contract.ts';

/** What keeps people safe whatever is cut: how cold it is kept and ground, and how hot it is cooked. */
export function wallCautions(all: readonly Caution[]): Caution[] {
  const cold = all.filter(
    ({ when, shown }) => when === 'always' && (shown.includes('rail') || shown.includes('grinder')),
  );
  const cooked = all.filter(({ when, shown }) => when !== 'positive result' && shown.includes('label'));
  return [...new Set([...cold, ...cooked])];
}
