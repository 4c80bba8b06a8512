import type { HeldIn } from '../../../bridge/contract.ts';
import { plural } from '../plural.ts';

const heldIs = ({ ticket, positive }: HeldIn): string =>
  `${ticket} ${positive ? 'tested positive' : 'is on hold'}`;

/** Texts of the grinder's cleaning. */
export const cleaningText = {
  title: 'Grinder cleaned',
  record: 'Record cleaning',
  saved: 'The cleaning is recorded.',
  undone: 'Undone at once',
  newest: 'Newest cleanings',
  how: 'How it was cleaned',
  howUsual: 'Taken apart, scrubbed, washed, rinsed, sanitized',
  howHint:
    'Press it when the grinder is back together. Time and initials are recorded with it. Between the last weight in and the first package it counts for a batch only after a pass, or when it is recorded on the page of that batch.',
  cleanedAfter: (batch: string, when: string, by: string, how: string) =>
    `Grinder cleaned after ${batch}: ${when}${by ? `, ${by}` : ''}. ${how}.`,
  notCleanedAfter: (batch: string, held: readonly HeldIn[]) =>
    `The grinder is not recorded as cleaned after ${batch} (${held.map(heldIs).join(', ')}). Take it apart and clean it before the next batch.`,
  notCleanedShort: (batch: string, held: readonly HeldIn[]) => `${batch}: ${held.map(heldIs).join(', ')}.`,
  before: (n: number) => `and ${n} before it`,
  recordedAs: (how: string) => `Recorded as: ${how}`,
  last: (when: string, by: string) => `Grinder last cleaned ${when}${by ? `, ${by}` : ''}.`,
  between: (n: number, cleaned: boolean) => {
    const when = cleaned ? 'in between' : 'since';
    return n === 0
      ? `Nothing went through ${when}.`
      : `${plural(n, 'batch', 'batches')} went through ${when}:`;
  },
  since: (n: number) =>
    n === 0 ? 'Nothing went through since.' : `${plural(n, 'batch', 'batches')} went through since.`,
  toBatch: (batch: string) => `To ${batch}`,
  earlier: 'Cleaned earlier, not written down',
  earlierOn: 'Cleaned on',
  earlierAt: 'At',
  earlierHint: 'As hours and minutes, for example 18:30.',
  showAll: (n: number) => `Show all ${n}`,
  throughBefore: (batch: string, tickets: string) =>
    `${batch} with meat on hold (${tickets}) went through the grinder before or beside this batch, and no cleaning is recorded in between.`,
};
