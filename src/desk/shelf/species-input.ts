/** A shop's input for a species, and the resulting complete profile. */
import * as v from 'valibot';
import { changedSpecies } from '../../core/species/changed.ts';
import { ownSpecies } from '../../core/species/own.ts';
import { scaledWeights } from '../../core/species/weights.ts';
import type { HangingWeights, Primal, SpeciesProfile } from '../../core/species/species.ts';
import type { MassUnit } from '../../core/values/units.ts';
import { codeOfName } from '../input/code-of-name.ts';
import { by, listOf, MAX_PRIMALS, needed, typed } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import { SPECIES } from '../supplied/resources.ts';
import { typedGrams } from '../input/typed-grams.ts';

const primal = v.object({
  /** Absent for a new primal. */
  code: v.optional(needed(40)),
  name: needed(40),
  pair: v.boolean('input.invalid'),
  /** In any measure: shares are scaled to a sum of 1. */
  share: v.pipe(v.number('share.range'), v.minValue(0, 'share.range'), v.maxValue(1e6, 'share.range')),
});

export const speciesInput = v.object({
  /** Absent for a new species. */
  code: v.optional(needed(40)),
  /** The supplied species whose figures apply until the shop has its own; for a supplied one itself. */
  like: needed(40),
  name: needed(60),
  many: needed(60),
  words: v.object({ male: needed(20), female: needed(20), young: needed(20) }),
  /** Hanging weights as typed. Without the typical one, those of an existing species do not change. */
  typicalTyped: v.optional(typed),
  leastTyped: v.optional(typed),
  mostTyped: v.optional(typed),
  primals: listOf(primal, MAX_PRIMALS),
  by,
});
type SpeciesInput = v.InferOutput<typeof speciesInput>;

/**
 * The profile of a species by the shop's input: a supplied one with other words, or one made from a relative.
 * @param before its present profile, or null for a new species
 * @throws ValidationError `species.*`, `reading.*`; ProblemError `species.like`, `primal.unknown`
 */
export function profileOf(
  input: SpeciesInput & { code: string },
  before: SpeciesProfile | null,
  unit: MassUnit,
): SpeciesProfile {
  const supplied = SPECIES.find(({ code }) => code === input.code);
  const relative = supplied ?? SPECIES.find(({ code }) => code === input.like);
  if (!relative) throw new ProblemError('invalid', 'species.like', { field: 'like' });
  const fields = {
    code: input.code,
    name: input.name,
    many: input.many,
    words: input.words,
    hangingGrams: weightsOf(input, relative, before, unit),
    primals: primalsOf(input.primals, [...relative.primals, ...(before?.primals ?? [])]),
  };
  return supplied ? changedSpecies(supplied, fields) : ownSpecies(relative, fields);
}

function weightsOf(
  { typicalTyped, leastTyped, mostTyped }: SpeciesInput,
  relative: SpeciesProfile,
  before: SpeciesProfile | null,
  unit: MassUnit,
): HangingWeights {
  if (before && typicalTyped === undefined) return before.hangingGrams;
  return scaledWeights(relative, {
    typicalGrams: typedGrams(typicalTyped ?? '', unit, 'typicalTyped'),
    leastGrams: leastTyped?.trim() ? typedGrams(leastTyped, unit, 'leastTyped') : null,
    mostGrams: mostTyped?.trim() ? typedGrams(mostTyped, unit, 'mostTyped') : null,
  });
}

/** Existing primals keep their codes, which weights refer to; new ones get one from their name. */
function primalsOf(wanted: SpeciesInput['primals'], known: readonly Primal[]): Primal[] {
  const codes = new Set(known.map(({ code }) => code));
  const stranger = wanted.find(({ code }) => code !== undefined && !codes.has(code));
  if (stranger)
    throw new ProblemError('invalid', 'primal.unknown', {
      field: 'primals',
      with: { primal: stranger.name },
    });
  return wanted.map(({ code, name, pair, share }) => {
    const given = code ?? codeOfName(name, codes, 'piece');
    codes.add(given);
    return { code: given, name, pair, share };
  });
}
