/** Single weights, one a row, of animals that are in the book: by our ticket, or by the number that they had before. */
import { readingGrams } from '../../core/reading.ts';
import { Trouble } from '../problem.ts';
import type { DeskRoom } from '../room.ts';
import type { Taker } from './taker.ts';
import { keepWeight } from './weights.ts';

interface Found {
  id: number;
  /** What it weighed on the hook or as received, in grams; null: not weighed. */
  base: number | null;
}

/** Stages in which weights may still be written; a finished animal takes them only if it came from a file itself. */
const OPEN = ['hanging', 'cutting', 'packing', 'ready'];
const SLACK = 1.02;

export function weighingTaker(room: DeskRoom): Taker {
  const met = new Map<string, Found>();
  function animalOf(number: string): Found {
    const before = met.get(number);
    if (before) return before;
    const mine = room.book.broughtIn.byTicket(number);
    const old = mine ? [] : room.book.broughtIn.byOldNumber(number);
    if (old.length > 1) throw new Trouble('invalid', 'sheet.number-twice', { with: { typed: number } });
    const animal = mine ?? old[0];
    if (!animal) throw new Trouble('missing', 'ticket.unknown', { with: { ticket: number } });
    if (animal.came === 0 && !OPEN.includes(animal.stage))
      throw new Trouble('refused', 'animal.closed', { with: { ticket: number } });
    const sums = room.book.weighings.sums(animal.id);
    const found = { id: animal.id, base: sums?.hanging ?? sums?.received ?? null };
    met.set(number, found);
    return found;
  }
  return {
    check({ texts, weights }, tell) {
      const { weight, tare } = weights;
      const grams = weight ? readingGrams(weight) - (tare ? readingGrams(tare) : 0) : 0;
      if (weight && !(grams > 0))
        tell(
          'tare',
          new Trouble('invalid', 'reading.tare', { with: { typed: weight.typed, tare: tare?.typed ?? '' } }),
        );
      if (!texts.ticket) return;
      try {
        const animal = animalOf(texts.ticket);
        const [stage, part] = (texts.what ?? '').split('/');
        if (part === 'carcass') {
          if (stage === 'hanging' || animal.base === null) animal.base = Math.max(grams, animal.base ?? 0);
        } else if (animal.base !== null && grams > animal.base * SLACK)
          tell(
            'weight',
            new Trouble('invalid', 'weight.more-than-animal', {
              with: { grams, baseGrams: animal.base, base: 'hanging' },
            }),
          );
      } catch (error) {
        if (!(error instanceof Trouble)) throw error;
        tell('ticket', error);
      }
    },
    write({ texts, weights, counts }, writing) {
      const [stage = '', part = ''] = (texts.what ?? '').split('/');
      const { weight, tare } = weights;
      if (!weight) throw new Error('a row without a weight is a problem, and nothing is written then');
      keepWeight(room, writing, {
        animalId: animalOf(texts.ticket ?? '').id,
        stage,
        part,
        reading: weight,
        ...(tare && { tare }),
        product: texts.product,
        count: counts.packages,
        note: texts.note,
      });
    },
    look: () => ({ hunters: 0, animals: 0, weighings: 1, known: 0 }),
  };
}
