/** Imports single weights, one per row, of known animals: by ticket, or by their former number. */
import { readingGrams } from '../../core/values/reading.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { refuseHeldWeight } from '../animal/hold-rules.ts';
import { isNonePart, refuseWeighed } from '../weighing/part-none.ts';
import type { RowValues } from './cells.ts';
import { addHanging, hangingInBook, type HangingSoFar } from './hung-before.ts';
import { productKept } from './own-exports.ts';
import type { RowImporter } from './row-importer.ts';
import { saveNone, saveWeight } from './weights.ts';

interface Found {
  id: number;
  ticket: string;
  /** In the shop, so holds apply; an imported animal was cut long ago, unless it was reopened. */
  inShop: boolean;
  /** Hanging or received weight in grams; null if not weighed. */
  base: number | null;
}

/** Stage and part of a row, and whether it states none. */
function partOf({ texts, none }: RowValues): { stage: string; part: string; isNone: boolean } {
  const [stage = '', part = ''] = (texts.what ?? '').split('/');
  return { stage, part, isNone: none.includes('weight') };
}

/** Stages that take weights; a finished animal takes them only if it was imported itself. */
const OPEN = ['hanging', 'cutting', 'packing', 'ready'];
const MAX_OVER = 1.02;

export function weighingImporter(session: Session): RowImporter {
  const animals = new Map<string, Found>();
  /** By animal: a file may refer to it by ticket and by former number. */
  const hangings = new Map<number, HangingSoFar>();
  function animalOf(number: string): Found {
    const before = animals.get(number);
    if (before) return before;
    const byTicket = session.book.imports.byTicket(number);
    const old = byTicket ? [] : session.book.imports.byOldNumber(number);
    if (old.length > 1) throw new ProblemError('invalid', 'sheet.number-twice', { with: { typed: number } });
    const animal = byTicket ?? old[0];
    if (!animal) throw new ProblemError('missing', 'ticket.unknown', { with: { ticket: number } });
    if (animal.came === 0 && !OPEN.includes(animal.stage))
      throw new ProblemError('refused', 'animal.closed', { with: { ticket: number } });
    const sums = session.book.weighings.sums(animal.id);
    const found = {
      id: animal.id,
      ticket: number,
      inShop: OPEN.includes(animal.stage),
      base: sums?.hanging ?? sums?.received ?? null,
    };
    animals.set(number, found);
    return found;
  }
  return {
    check(values, report, doubt) {
      const { texts, weights } = values;
      const { stage, part, isNone } = partOf(values);
      if (isNone && texts.what && !isNonePart(part))
        report('weight', new ProblemError('invalid', 'sheet.none-of', { with: { what: part } }));
      const { weight, tare } = weights;
      const grams = weight ? readingGrams(weight) - (tare ? readingGrams(tare) : 0) : 0;
      if (weight && !(grams > 0))
        report(
          'tare',
          new ProblemError('invalid', 'reading.tare', {
            with: { typed: weight.typed, tare: tare?.typed ?? '' },
          }),
        );
      if (!texts.ticket) return;
      try {
        const animal = animalOf(texts.ticket);
        if (animal.inShop) refuseHeldWeight(session, animal, stage);
        if (isNone && isNonePart(part)) refuseWeighed(session, animal.id, part);
        if (isNone) return;
        if (stage === 'hanging' && grams > 0) {
          const before = hangings.get(animal.id) ?? hangingInBook(session, animal.id);
          hangings.set(animal.id, before);
          const again = addHanging(before, texts.ticket, grams, texts.note);
          if (again) doubt('weight', again);
          animal.base = Math.max(before.grams, animal.base ?? 0);
        } else if (part === 'carcass') {
          if (grams > 0) animal.base ??= grams;
        } else if (animal.base !== null && grams > animal.base * MAX_OVER)
          report(
            'weight',
            new ProblemError('invalid', 'weight.more-than-animal', {
              with: { grams, baseGrams: animal.base, base: 'hanging' },
            }),
          );
      } catch (error) {
        if (!(error instanceof ProblemError)) throw error;
        report(error.problem.field === 'part' ? 'weight' : 'ticket', error);
      }
    },
    write(values, writing) {
      const { texts, weights, counts } = values;
      const { stage, part, isNone } = partOf(values);
      const { weight, tare } = weights;
      if (isNone) return saveNone(session, writing, animalOf(texts.ticket ?? '').id, part);
      if (!weight) throw new Error('a row without a weight is a problem, and nothing is written then');
      saveWeight(session, writing, {
        animalId: animalOf(texts.ticket ?? '').id,
        stage,
        part,
        reading: weight,
        ...(tare && { tare }),
        product: texts.product === undefined ? undefined : productKept(texts.product),
        count: counts.packages,
        note: texts.note,
      });
    },
    count: ({ none }) => {
      const isNone = none.includes('weight');
      return { hunters: 0, animals: 0, weighings: isNone ? 0 : 1, none: isNone ? 1 : 0, known: 0 };
    },
  };
}
