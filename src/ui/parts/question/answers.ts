/**
 * One of the answers to a question. Y and N mean the same in every question: Y saves what was typed as it stands, N saves
 * nothing and leads back to it. Anything else has a letter of its own.
 */
export interface Answer {
  /** `Y`, `N` or another capital letter. */
  key: string;
  label: string;
  does: () => unknown;
}

/** The answer that a key gives; Escape is N. Null for any other key, and with Ctrl, Alt or Cmd. */
export function answerTo(event: KeyboardEvent, answers: readonly Answer[]): Answer | null {
  if (event.ctrlKey || event.altKey || event.metaKey) return null;
  const key = event.key === 'Escape' ? 'N' : event.key.toUpperCase();
  return answers.find((one) => one.key === key) ?? null;
}
