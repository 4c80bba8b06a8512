import type { CompareBy } from '../../../../bridge/contract.ts';
import { plural } from '../../plural.ts';

/** Texts of the list of animals behind a mark. Amounts are already formatted. */
export const animalsText = {
  title: 'Animals',
  count: (n: number) => plural(n, 'animal', 'animals'),
  first: (shown: number, total: number) =>
    `The first ${shown} of ${total} in this order. Choose fewer animals above to see the others.`,
  none: 'No animal is like that.',
  noneHow: 'Choose other animals above, or show all.',
  all: 'Show all animals',
  order: 'Order',
  orders: {
    ticket: 'Ticket',
    takeHome: 'Take-home',
    hanging: 'Hanging weight',
    bone: 'Bone',
    damage: 'Damage',
    unexplained: 'Not explained',
    days: 'Days in the shop',
    income: 'Bill before tax',
  } satisfies Record<CompareBy | 'ticket' | 'unexplained', string>,
  between: (what: string, low: string, high: string) =>
    low === high ? `${what}: ${low}.` : `${what}: from ${low} to ${high}.`,
  allValues: 'Show all values',
  ticket: 'Ticket',
  species: 'Species',
  hunter: 'Hunter',
  brought: 'Brought as',
  cutter: 'Cut by',
  received: 'Came in',
  base: 'On the hook',
  takeHome: 'Take-home',
  share: 'Share',
  stage: 'Now',
};
