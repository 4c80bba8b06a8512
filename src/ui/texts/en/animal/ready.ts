/** Texts for the question when an animal is marked ready, and for its answer at pickup. */
export const readyText = {
  why: 'Why it is right',
  whyHint: 'For example: the hunter took the neck home. It stays in the record with your initials.',
  readyAnyway: 'Set ready all the same',
  answered: (answer: string, by: string) => `Asked when it was set ready: ${answer}${by ? ` (${by})` : ''}.`,
};
