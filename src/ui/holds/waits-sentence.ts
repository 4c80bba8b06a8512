import type { WaitsFor } from '../../bridge/contract.ts';
import { text as affectedText } from '../../words/compiled/window/affected.ts';
import { text } from '../../words/compiled/window/hold.ts';

/** Why an animal cannot leave, as a sentence. */
export function waitsSentence(ticket: string, { ticket: other, batch, positive, from }: WaitsFor): string {
  if (!positive) return text.waitsFor({ ticket, other, batch });
  return from === null
    ? text.waitsForPositive({ ticket, other, batch })
    : affectedText.throughGrinder({ ticket, other, batch, from });
}
