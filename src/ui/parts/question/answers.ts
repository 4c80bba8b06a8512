/**
 * An answer to a question. Y and N mean the same everywhere: Y saves the input as typed, N saves nothing and returns
 * to it. Other answers have their own letter.
 */
export interface Answer {
  /** `Y`, `N` or another capital letter. */
  key: string;
  label: string;
  /** The likeliest one, drawn filled. */
  likely?: boolean;
  does: () => unknown;
}

/** The answer for a key; Escape means N. Null for other keys, and with Ctrl, Alt or Cmd. */
export function answerTo(event: KeyboardEvent, answers: readonly Answer[]): Answer | null {
  if (event.ctrlKey || event.altKey || event.metaKey) return null;
  const key = event.key === 'Escape' ? 'N' : event.key.toUpperCase();
  return answers.find((one) => one.key === key) ?? null;
}
