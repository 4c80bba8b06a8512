/** The shop's own species, and changed supplied ones. */
import * as v from 'valibot';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { isLongBook } from '../session/make-backup.ts';
import { codeOfName } from '../input/code-of-name.ts';
import { by, needed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { SpeciesOnShelf } from '../contract/contract.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';
import { speciesOnShelf } from './shelf.ts';
import { profileOf, speciesInput } from './species-input.ts';

/**
 * Adds a species, or changes one. @throws ValidationError `species.*`, `reading.*`; ProblemError `species.like`,
 * `species.taken`, `species.too-many`, `species.primal-used` (refused), `primal.unknown`
 */
export const save = write(speciesInput, saveSpecies, {
  // Every season's summary depends on the species: the worker recomputes all of them before it answers.
  long: { when: isLongBook },
});

function saveSpecies(session: Session, input: v.InferOutput<typeof speciesInput>): SpeciesOnShelf {
  const before = input.code === undefined ? null : session.species.of(input.code);
  const codes = session.species.all.map((one) => one.code);
  const code = before?.code ?? codeOfName(input.name, codes, 'species');
  if (!before) refuseMoreOfShop('species', codes.length);
  needNameOfItsOwn(session, code, input.name);
  const profile = profileOf({ ...input, code }, before, session.settings.unit);
  if (before) refuseLosingPrimals(session, before, profile);
  session.book.ownSpecies.put(code, profile, true);
  session.book.audit.note({
    record: 'species', recordId: code, act: before ? 'change' : 'add', ...(before && { before }), after: profile,
    at: session.now(), by: input.by,
  }); // prettier-ignore
  return taken(session, code);
}

const which = v.object({ code: needed(40), by });

/** Archives a species. Its animals do not change. @throws ProblemError `species.unknown`, `species.last` (refused) */
export const archive = write(which, (session, { code, by: initials }) => {
  session.species.of(code);
  if (session.species.offered.every((one) => one.code === code))
    throw new ProblemError('refused', 'species.last');
  return setActive(session, code, false, initials);
});

/** @throws ProblemError `species.unknown` */
export const restore = write(which, (session, { code, by: initials }) =>
  setActive(session, code, true, initials),
);

function setActive(session: Session, code: string, offered: boolean, initials: string): SpeciesOnShelf {
  const profile = session.species.of(code);
  session.book.ownSpecies.put(code, session.species.own.has(code) ? profile : null, offered);
  session.book.audit.note({
    record: 'species', recordId: code, act: 'change', after: { offered }, at: session.now(), by: initials,
  }); // prettier-ignore
  return taken(session, code);
}

function taken(session: Session, code: string): SpeciesOnShelf {
  return speciesOnShelf(session, session.species.of(code));
}

function needNameOfItsOwn(session: Session, code: string, name: string): void {
  const other = session.species.all.find(
    (one) => one.code !== code && one.name.toLowerCase() === name.toLowerCase(),
  );
  if (other)
    throw new ProblemError('invalid', 'species.taken', { field: 'name', with: { name: other.name } });
}

/** Primals in use by animals must stay, or their pages would refer to a missing primal. */
function refuseLosingPrimals(session: Session, before: SpeciesProfile, after: SpeciesProfile): void {
  const kept = new Set(after.primals.map(({ code }) => code));
  const used = new Set(session.book.ownSpecies.primalsUsed(before.code));
  const lost = before.primals.find(({ code }) => used.has(code) && !kept.has(code));
  if (lost)
    throw new ProblemError('refused', 'species.primal-used', {
      field: 'primals',
      with: { primal: lost.name },
    });
}
