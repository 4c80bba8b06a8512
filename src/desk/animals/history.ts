/** The history of one animal: each action and edit, by whom, with the former values. */
import * as v from 'valibot';
import type { HistoryRow } from '../../book/records/history.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { ordersRead, USUAL_INSTRUCTIONS } from '../animal/instructions.ts';
import { orderChanges } from './history-orders.ts';
import { id } from '../input/input.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import type {
  HistoryChange,
  HistoryEntry,
  HistoryKind,
  HistoryValue,
  Instructions,
} from '../contract/contract.ts';
import { animalOf } from '../animal/closed.ts';

/** Newest first. @throws ProblemError `animal.unknown` */
export const getHistory = read(v.object({ id }), (session, input): HistoryEntry[] => {
  const species = session.species.of(animalOf(session, input.id).species);
  return session.book.history
    .ofAnimal(input.id)
    .map((row) => entryOf(session, species, row))
    .filter((entry) => !hasOwnEntry(entry));
});

type Side = Record<string, string | number | boolean | null> | null;

function entryOf(session: Session, species: SpeciesProfile, row: HistoryRow): HistoryEntry {
  const { reason, before, after, ...facts } = JSON.parse(row.facts) as {
    reason?: string | null;
    before?: Side;
    after?: Side;
  } & Record<string, string | number | null>;
  const what = row.what as HistoryKind;
  const named = Object.fromEntries(
    ['primal', 'fromPrimal'].flatMap((key) => {
      const primal = facts[key];
      return typeof primal === 'string' ? [[key, nameOf(species, primal)]] : [];
    }),
  );
  return {
    at: row.at,
    by: row.by,
    what,
    facts: { ...facts, ...named },
    changes: changesOf(session, species, what, before ?? null, after ?? null),
    reason: reason ?? '',
  };
}

function changesOf(
  session: Session,
  species: SpeciesProfile,
  what: HistoryKind,
  before: Side,
  after: Side,
): HistoryChange[] {
  if (after === null || before === null) return [];
  if (what === 'instructed')
    return orderChanges(
      { ...USUAL_INSTRUCTIONS, ...ordersRead(session, before as unknown as Partial<Instructions>) },
      { ...USUAL_INSTRUCTIONS, ...ordersRead(session, after as unknown as Partial<Instructions>) },
      (primal) => nameOf(species, primal),
    );
  return Object.keys(after)
    .filter((field) => field in before && before[field] !== after[field])
    .map((field) => ({
      field,
      before: valueOf(session, species, field, before[field]),
      after: valueOf(session, species, field, after[field]),
    }));
}

function valueOf(session: Session, species: SpeciesProfile, field: string, value: unknown): HistoryValue {
  if (field === 'parts' && typeof value === 'string') return piecesOf(species, value);
  if (field === 'species' && typeof value === 'string') return session.species.of(value).name;
  if (field === 'hunter_id' && typeof value === 'number')
    return session.book.hunters.get(value)?.name ?? null;
  return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? value : null;
}

/** @example piecesOf(elk, '2 haunch, 1 neck') // { pieces: [{ count: 2, primal: 'Haunch' }, { count: 1, primal: 'Neck' }] } */
function piecesOf(species: SpeciesProfile, kept: string): HistoryValue {
  const pieces = [...kept.matchAll(/(\d+) ([^,]+)/g)];
  return pieces.length === 0
    ? kept
    : {
        pieces: pieces.map(([, count, primal = '']) => ({
          count: Number(count),
          primal: nameOf(species, primal),
        })),
      };
}

/** Stage changes to released or disposed have entries of their own with more detail. */
function hasOwnEntry({ what, changes }: HistoryEntry): boolean {
  if (what !== 'changed' || changes.length === 0) return false;
  return changes.every(
    ({ field, after }) => field === 'stage' && (after === 'released' || after === 'disposed'),
  );
}

function nameOf(species: SpeciesProfile, primal: string): string {
  return species.primals.find(({ code }) => code === primal)?.name ?? primal;
}
