import type { Hook, NextCut } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/rail.ts';
import type { Format } from '../texts/format.ts';

/** Why an animal is next: 'hung 8 days, the limit is 7'. */
export function cutWhy(
  { why }: Pick<NextCut, 'why'>,
  { days, promisedOn }: Pick<Hook, 'days' | 'promisedOn'>,
  shop: { limitDays: number; today: string; format: Pick<Format, 'day'> },
): string {
  switch (why) {
    case 'over-limit':
      return text.hungOver({ days, limit: shop.limitDays });
    case 'promised':
      return promise(promisedOn ?? '', shop);
    case 'due':
      return days >= shop.limitDays ? text.lastDay({ days }) : text.lastEve({ days });
    case 'ready':
      return text.ready({ days });
    case 'light':
      return text.light({ days });
    case 'oldest':
      return text.oldest({ days });
  }
}

function promise(on: string, { today, format }: { today: string; format: Pick<Format, 'day'> }): string {
  if (on === today) return text.promisedToday;
  return on < today ? text.promisedPast({ day: format.day(on) }) : text.promised({ day: format.day(on) });
}

/** Hooks in cutting order; animals that may not be cut now come last, in their original order. */
export function inCutOrder(hooks: readonly Hook[], next: readonly NextCut[]): Hook[] {
  const turn = new Map(next.map(({ id }, at) => [id, at]));
  const at = ({ id }: Hook): number => turn.get(id) ?? next.length;
  return [...hooks].sort((a, b) => at(a) - at(b));
}
