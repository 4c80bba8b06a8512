import type { text } from '../../words/compiled/window/terms.ts';

/** Where a term is used so; its words stand with the meanings, under `term.from`. */
type TermSource = 'common' | 'commonAgency' | 'wyoming' | 'bookkeeping' | 'legs' | 'ours';

/**
 * Trade terms with where each is used in this sense; name and explanation stand in the words, under the same code. A
 * test requires every term to be used in the window.
 */
export const termSources = {
  batch: 'common',
  'back-fat': 'common',
  boned: 'common',
  'break-even': 'bookkeeping',
  damage: 'wyoming',
  'dressed-weight': 'legs',
  'fat-test': 'common',
  gambrel: 'common',
  'hanging-weight': 'wyoming',
  hold: 'commonAgency',
  lean: 'common',
  'least-cost': 'common',
  'live-weight': 'wyoming',
  lot: 'common',
  'eight-in-ten': 'ours',
  'own-fat': 'common',
  pass: 'common',
  plate: 'common',
  primal: 'common',
  quarters: 'common',
  shrink: 'common',
  sinew: 'common',
  suet: 'common',
  tag: 'commonAgency',
  'take-home': 'common',
  'target-fat': 'common',
  ticket: 'common',
  trim: 'common',
  'whole-cuts': 'common',
} as const satisfies Record<keyof typeof text.of, TermSource>;

export type TermCode = keyof typeof termSources;
