/**
 * What a log says of a programme: that it meets the figures entered, that it does not, or that this cannot be told. Never that a
 * product is safe: that is for a licensed processing authority.
 */

export type HeatAnswer = 'meets-figures' | 'not-met' | 'not-proven';

/** What was not met, or what is missing: a code for the window's sentence. */
export interface HeatFinding {
  readonly code: string;
  readonly with: Readonly<Record<string, string | number>>;
  /** When, ms UTC. */
  readonly at?: number;
}

export interface HeatVerdict {
  readonly answer: HeatAnswer;
  readonly notMet: readonly HeatFinding[];
  readonly missing: readonly HeatFinding[];
}

/** Anything missing leaves the rest unproven; only a complete log can show that a figure was not met. */
export function verdictOf(notMet: readonly HeatFinding[], missing: readonly HeatFinding[]): HeatVerdict {
  if (missing.length > 0) return { answer: 'not-proven', notMet: [], missing };
  return { answer: notMet.length > 0 ? 'not-met' : 'meets-figures', notMet, missing };
}

const WORST_FIRST: readonly HeatAnswer[] = ['not-met', 'not-proven', 'meets-figures'];

/** The verdict on several probes: the worst of them, with everything that each found. */
export function worstOf(verdicts: readonly HeatVerdict[]): HeatVerdict {
  const answers = verdicts.map(({ answer }) => answer);
  return {
    answer: WORST_FIRST.find((one) => answers.includes(one)) ?? 'not-proven',
    notMet: verdicts.flatMap(({ notMet }) => notMet),
    missing: verdicts.flatMap(({ missing }) => missing),
  };
}
