import type { Fate } from '../charts/part-paint.ts';
import type { BehindOrder } from './season-query.ts';

/** In which order the animals behind an end are most telling: those with most of it first. */
export function orderOf(fate: Fate): BehindOrder {
  if (fate === 'bone' || fate === 'damage' || fate === 'unexplained') return fate;
  return fate === 'whole cuts' || fate === 'trim' || fate === 'fat saved' ? 'takeHome' : 'hanging';
}
