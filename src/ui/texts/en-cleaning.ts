import { plural } from './plural.ts';

/** Words of the grinder's cleaning: what is recorded, and what held meat was followed by. */
export const cleaningText = {
  title: 'Grinder cleaned',
  record: 'The grinder is cleaned',
  kept: 'The cleaning is recorded.',
  undone: 'Undone at once',
  newest: 'Newest cleanings',
  how: 'How it was cleaned',
  howUsual: 'Taken apart, scrubbed, washed, rinsed, sanitized',
  howHint: 'Press it when the grinder is back together. Time and initials are recorded with it.',
  cleanedAfter: (batch: string, when: string, by: string, how: string) =>
    `Grinder cleaned after ${batch}: ${when}${by ? `, ${by}` : ''}. ${how}.`,
  notCleanedAfter: (batch: string) =>
    `After ${batch}, which holds meat on hold, no cleaning of the grinder is recorded. Take it apart and clean it before the next batch.`,
  nothingBetween: (cleaned: boolean) =>
    cleaned ? 'Nothing went through in between.' : 'Nothing went through since.',
  between: (n: number, cleaned: boolean) =>
    `${plural(n, 'batch', 'batches')} went through ${cleaned ? 'in between' : 'since'}:`,
  throughBefore: (batch: string, tickets: string) =>
    `${batch} with meat on hold (${tickets}) went through the grinder before or beside this batch, and no cleaning is recorded in between.`,
  throughBeforePositive: (batch: string, tickets: string) =>
    `${batch} with meat that tested positive (${tickets}) went through the grinder before or beside this batch, and no cleaning is recorded in between. Ask your wildlife agency or the health department.`,
};
