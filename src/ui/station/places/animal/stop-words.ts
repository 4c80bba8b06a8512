import type { AnimalPage } from '../../../../bridge/contract.ts';
import { text } from '../../../../words/compiled/window/table.ts';

/** What stops an animal, as sentences; empty if nothing does. */
export function stopWords({ hold, waitsFor }: Pick<AnimalPage, 'hold' | 'waitsFor'>): string[] {
  return [hold ? holdWords(hold) : '', waitWords(waitsFor)].filter(Boolean);
}

function holdWords({ positive, reason, sample }: NonNullable<AnimalPage['hold']>): string {
  if (positive) return text.stop.positive({ sample });
  return reason === 'sample' ? text.stop.sample({ sample }) : text.stop.other({ why: reason });
}

/** Its own sample may be negative while other meat of its batches is positive. */
function waitWords(waitsFor: AnimalPage['waitsFor']): string {
  if (waitsFor.length === 0) return '';
  return waitsFor.some(({ positive }) => positive) ? text.stop.affected : text.stop.ground;
}
