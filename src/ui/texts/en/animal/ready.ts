/** Texts for inconsistencies when an animal is set ready, and for what is missing at pickup. */

interface Doubts {
  cutGrams?: unknown;
  groundGrams?: unknown;
  packedGrams?: unknown;
  overGrams?: unknown;
  missingGrams?: unknown;
  /** Batches without packages; empty if none. */
  unpacked: string;
  /** Products ordered but not made; empty if none. */
  notMade: string;
}

/** @example readySentence({ cutGrams: 9000, packedGrams: 4000, missingGrams: 5000, … }, mass) // '19.8 lb was cut, 8.8 lb packed … : 11 lb is missing.' */
export function readySentence(doubts: Doubts, mass: (grams: unknown) => string): string {
  const { cutGrams, groundGrams, packedGrams, overGrams, missingGrams, unpacked, notMade } = doubts;
  const figures = `${mass(cutGrams)} was cut, ${mass(packedGrams)} is packed and ${mass(groundGrams)} went to the grinder`;
  return [
    Number(overGrams) > 0 ? `${figures}: ${mass(overGrams)} too much.` : '',
    Number(missingGrams) > 0 ? `${figures}: ${mass(missingGrams)} is missing.` : '',
    unpacked ? `Nothing is packed from ${unpacked}.` : '',
    notMade ? `Ordered, but not made: ${notMade}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
}

export const readyText = {
  why: 'Why it is right',
  whyHint: 'For example: the hunter took the neck home. It stays in the record with your initials.',
  readyAnyway: 'Set ready all the same',
  answered: (answer: string, by: string) => `Asked when it was set ready: ${answer}${by ? ` (${by})` : ''}.`,
};
