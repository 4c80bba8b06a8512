/** The shop's own cutting templates, and changed supplied ones. */
import * as v from 'valibot';
import { wholeCutsShare } from '../../core/species/cutting.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { by, id, instructions, needed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import { requireFatChoice } from '../supplied/resources.ts';
import type { Session } from '../session/session.ts';
import type { Instructions, TemplateOnShelf } from '../contract/contract.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';
import { isNamesake, templatesOnShelf } from './templates-shelf.ts';

const named = { name: needed(60), carcass: v.nullable(needed(20)) };

/**
 * Keeps instructions under a name. A name that one put away has brings it back with what it now says.
 * @throws ProblemError `template.too-many` (refused), `template.taken`, `template.unknown`, `template.carcass`, `primal.unknown`, `fat.unknown`
 */
export const save = write(
  v.object({
    /** The shop's own template to change; absent for a new one. */
    id: v.optional(id),
    ...named,
    instructions,
    /** Confirms that a supplied one of this name and carcass is replaced. */
    inPlace: v.optional(v.boolean(), false),
    by,
  }),
  (session, { id: changed, inPlace, by: initials, ...template }): TemplateOnShelf => {
    const every = templatesOnShelf(session);
    const before = changed === undefined ? undefined : every.find((one) => one.id === changed);
    if (changed !== undefined && !before)
      throw new ProblemError('missing', 'template.unknown', { field: 'id' });
    const same = every.find((one) => isNamesake(one, template));
    if (same && isTaken(same, before, inPlace))
      throw new ProblemError('invalid', 'template.taken', { field: 'name', with: { name: same.name } });
    const body = fitting(session, template);
    const row = rowOf(session, changed, template);
    const kept = {
      name: template.name,
      carcass: template.carcass,
      body,
      active: true,
    };
    if (row === undefined && !same) refuseMoreOfShop('template', every.length);
    if (row === undefined) session.book.templates.add(kept);
    else session.book.templates.change(row, kept);
    session.book.audit.note({
      record: 'template', recordId: template.name, act: before ? 'change' : 'add', ...(before && { before }), after: template,
      at: session.now(), by: initials,
    }); // prettier-ignore
    return templateOf(session, template);
  },
);

const which = v.object({ ...named, by });

/** Archives a template. Orders made from it stay. @throws ProblemError `template.unknown` */
export const archive = write(which, (session, input) => setActive(session, input, false));

/** @throws ProblemError `template.unknown` */
export const restore = write(which, (session, input) => setActive(session, input, true));

function setActive(
  session: Session,
  { by: initials, ...key }: v.InferOutput<typeof which>,
  offered: boolean,
) {
  const { name, carcass, id: own, instructions: body } = templateOf(session, key);
  const row = rowOf(session, own ?? undefined, key);
  const kept = { name, carcass, body: own === null ? null : body, active: offered };
  if (row === undefined) session.book.templates.add(kept);
  else session.book.templates.change(row, kept);
  session.book.audit.note({
    record: 'template', recordId: name, act: 'change', after: { carcass, offered }, at: session.now(), by: initials,
  }); // prettier-ignore
  return templateOf(session, key);
}

/** A name may be that of the changed one, of an archived one, or, if confirmed, of a supplied one. */
function isTaken(same: TemplateOnShelf, before: TemplateOnShelf | undefined, inPlace: boolean): boolean {
  if (before) return same.id !== before.id && (same.offered || same.id !== null);
  return same.offered && !(inPlace && same.id === null);
}

type Key = Pick<TemplateOnShelf, 'name' | 'carcass'>;

/** The row to write: the changed one, or an archived one of the same name. */
function rowOf(session: Session, changed: number | undefined, key: Key): number | undefined {
  return changed ?? session.book.templates.all().find((row) => isNamesake(row, key))?.id;
}

function templateOf(session: Session, key: Key): TemplateOnShelf {
  const found = templatesOnShelf(session).find((one) => isNamesake(one, key));
  if (!found) throw new ProblemError('missing', 'template.unknown', { field: 'name' });
  return found;
}

/**
 * The orders, with the share of whole cuts from their primals. The primals are those of a species with that
 * carcass; a template for any animal has none.
 */
function fitting(
  session: Session,
  { carcass, instructions: orders }: Key & { instructions: Instructions },
): Instructions {
  const hanging = session.species.all.filter(({ body }) => body === carcass);
  if (carcass === null ? orders.primals.length > 0 : hanging.length === 0)
    throw new ProblemError('invalid', 'template.carcass', { field: 'carcass' });
  for (const { fat } of [orders, ...orders.alsoGround]) requireFatChoice(fat);
  if (orders.primals.length === 0) return orders;
  const has = (species: SpeciesProfile, primal: string) =>
    species.primals.some(({ code }) => code === primal);
  const species = hanging.find((one) => orders.primals.every(({ primal }) => has(one, primal)));
  if (species) return { ...orders, cutsShare: wholeCutsShare(species.primals, orders.primals) };
  const stranger = orders.primals.find(({ primal }) => !hanging.some((one) => has(one, primal)));
  throw new ProblemError('invalid', 'primal.unknown', {
    field: 'primals',
    with: { primal: (stranger ?? orders.primals[0])?.primal ?? '' },
  });
}
