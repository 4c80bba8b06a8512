import type { CallInput, SpeciesCard, SpeciesOnShelf } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/books/shelf.ts';
import { massTyped } from '../orders/instructions-form.ts';
import { percentText, readPercent } from '../texts/percent.ts';

export interface TypedPrimal {
  /** Empty for a new primal. */
  code: string;
  name: string;
  pair: boolean;
  share: string;
}

/** A species as text fields, so that invalid input is not lost. */
export interface TypedSpecies {
  like: string;
  name: string;
  many: string;
  male: string;
  female: string;
  young: string;
  typical: string;
  least: string;
  most: string;
  primals: TypedPrimal[];
}

/** A new species with its relative's words and primals; name and weight are the shop's. */
export function speciesLike(relative: SpeciesCard): TypedSpecies {
  return {
    ...typedCard(relative),
    like: relative.code,
    name: '',
    many: '',
    typical: '',
    least: '',
    most: '',
  };
}

/** A species of the shelf as editable text. */
export function typeSpecies(row: SpeciesOnShelf, unit: 'lb' | 'kg'): TypedSpecies {
  const { least, typical, most } = row.hangingGrams;
  return {
    ...typedCard(row),
    like: row.like ?? row.code,
    typical: massTyped(typical, unit),
    least: massTyped(least, unit),
    most: massTyped(most, unit),
  };
}

function typedCard({ name, many, words, primals }: SpeciesCard) {
  return {
    name,
    many,
    ...words,
    primals: primals.map(({ code, name: called, pair, share }) => ({
      code,
      name: called,
      pair,
      share: percentText(share),
    })),
  };
}

export interface WrongSpecies {
  name?: string;
  /** By index in the list. */
  primals: Record<number, { name?: string; share?: string }>;
}

/**
 * Parses the fields for `species.save`; `value` is null while any is invalid. Unchanged weights of an existing
 * species are left out, so that rounding does not change them.
 * @param row the species to change, or null for a new one
 */
export function readSpecies(
  typed: TypedSpecies,
  row: SpeciesOnShelf | null,
  unit: 'lb' | 'kg',
): { value: CallInput<'species.save'> | null; wrong: WrongSpecies } {
  const wrong: WrongSpecies = { primals: {} };
  if (typed.name.trim() === '') wrong.name = text.nameProblem;
  const primals = typed.primals.map(({ code, name, pair, share }, i) => {
    const read = readPercent(share);
    if (name.trim() === '') wrong.primals[i] = { name: text.nameProblem };
    if (read === null || read === 0) wrong.primals[i] = { ...wrong.primals[i], share: text.shareProblem };
    return { ...(code && { code }), name: name.trim(), pair, share: read ?? 0 };
  });
  if (wrong.name || Object.keys(wrong.primals).length > 0) return { value: null, wrong };
  const { like, male, female, young, typical, least, most } = typed;
  const before = row && typeSpecies(row, unit);
  const weighed = before?.typical !== typical || before.least !== least || before.most !== most;
  return {
    wrong,
    value: {
      ...(row && { code: row.code }),
      like,
      name: typed.name,
      many: typed.many.trim() || typed.name.trim().toLowerCase(),
      words: { male, female, young },
      ...(weighed && { typicalTyped: typical, leastTyped: least, mostTyped: most }),
      primals,
    },
  };
}
