import type { AffectedBy, WaitsFor } from '../../../../bridge/contract.ts';
import { plural } from '../../plural.ts';
import { holdText } from './hold.ts';

/** Why an animal cannot leave, as a sentence. */
export function waitsSentence(ticket: string, { ticket: other, batch, positive, from }: WaitsFor): string {
  if (!positive) return holdText.waitsFor(ticket, other, batch);
  return from === null
    ? holdText.waitsForPositive(ticket, other, batch)
    : affectedText.throughGrinder(ticket, batch, from, other);
}

/** Texts for everything affected by a positive result: batches, animals, and calls. */
export const affectedText = {
  title: 'Affected by this result',
  summary: (animals: number, batches: number) =>
    `Its meat reached ${plural(animals, 'other animal', 'other animals')} in ${plural(batches, 'batch', 'batches')}. None of it is handed over. Call your wildlife agency, then these hunters.`,
  batches: 'Batches',
  batch: (product: string, packages: number, mass: string) =>
    `${product}, ${plural(packages, 'package', 'packages')}, ${mass}`,
  shared: 'Its meat went in.',
  carried: (from: string) => `Ground after ${from} with no cleaning recorded in between.`,
  animals: 'Animals and hunters',
  toCall: 'To call',
  gone: 'Handed over',
  inBatches: (names: readonly string[], packages: number, mass: string) =>
    packages === 0
      ? names.join(', ')
      : `${names.join(', ')}: ${plural(packages, 'package', 'packages')}, ${mass}`,
  untraced: (own: boolean, animals: number) =>
    [
      'Ground meat packed at the Table without a batch is not traced through the grinder.',
      ...(own ? ['Some meat of this animal was ground and packed that way.'] : []),
      animals === 0
        ? 'None recorded in that time could have met this meat.'
        : `${plural(animals, 'more animal', 'more animals')} may have met this meat in the grinder and ${animals === 1 ? 'is' : 'are'} not kept from being handed over. Find out when each was ground, and put it on hold where you cannot rule it out.`,
    ].join(' '),
  untracedAnimals: 'Not traced, may be affected',
  noPhone: 'no phone number',
  what: 'What was done',
  note: 'Note',
  record: 'Record',
  recordOf: (ticket: string) => `Record what was done about ${ticket}`,
  saved: (ticket: string) => `${ticket}: recorded.`,
  undone: 'Undone',
  onlyResult: 'A note lifts nothing: only a corrected result does.',
  throughGrinder: (ticket: string, batch: string, from: string, other: string) =>
    `${ticket} is in batch ${batch}, which went through the grinder after ${from} with ${other}, which tested positive. No cleaning is recorded in between. It is not handed over: your wildlife agency or the health department says what happens to it.`,
  batchReached: (by: readonly AffectedBy[]) =>
    by
      .map(({ ticket, from }) =>
        from === null
          ? `${ticket} tested positive, and its meat is in this batch.`
          : `${ticket} tested positive, and its meat went through the grinder in ${from} before this batch, with no cleaning recorded in between.`,
      )
      .join(' '),
  batchKept: 'Keep all packages here, marked and apart. Ask your wildlife agency or the health department.',
  affected: 'affected by a positive result',
};
