/** A hunter's own check-in: a draft of an intake, which the counter turns into a ticket or dismisses. */
import * as v from 'valibot';
import { actor } from '../../book/changes/acting.ts';
import type { DraftNow } from '../../book/records/stations/drafts.ts';
import { nameKey, phoneKey } from '../../book/records/hunters.ts';
import { isHunterLanguage } from '../../words/hunter-language.ts';
import { hunterCard } from '../animal/hunters.ts';
import { normalizeOrders } from '../animal/orders.ts';
import type { DraftRow, DraftSheet, HunterCard, Instructions, Sex } from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';
import { refuseFuture } from '../input/day-doubts.ts';
import { by, id, needed } from '../input/input.ts';
import { namesIn } from '../names/names.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { templateCards, usualOrders } from '../shelf/templates-shelf.ts';
import { language, newDraft } from './draft-input.ts';
import { draftsSince } from './draft-age.ts';

/** Open drafts of one station: more hunters than wait at a counter, and an end to what a child can type. Our choice, no source. */
const MOST_OPEN = 40;
/** A local number; fewer digits tell nobody apart. */
const LEAST_DIGITS = 7;

/** What a hunter's own check-in shows: nothing of anybody, and no price. */
export const begin = read(v.object({ language }), (session, input): DraftSheet => {
  const names = namesIn(input.language);
  const { shopName, unit, dropOffTerms } = session.settings;
  return {
    shopName,
    today: session.today(),
    unit,
    terms: dropOffTerms,
    species: session.species.offered.map(({ code, name, words, body, primals }) => ({
      code,
      title: names?.said('species.*.name', name, code) ?? name,
      male: names?.said('species.*.male', words.male, code) ?? words.male,
      female: names?.said('species.*.female', words.female, code) ?? words.female,
      body,
      primals: primals.map((primal) => primal.code),
    })),
    usual: { ...usualOrders(session), standard: true },
    ways: templateCards(session).map(({ name, carcass, instructions }) => ({
      title: names?.said('template.*', name) ?? name,
      carcass,
      instructions,
    })),
  };
});

/**
 * Keeps what a hunter typed. It is no ticket yet.
 * @throws ProblemError `species.unknown`, `primal.unknown`, `date.future`, `signature.needed` (invalid), `draft.terms-changed`
 *   (conflict), `draft.too-many` (refused)
 */
export const add = write(newDraft, (session, { instructions, by: initials, ...draft }) => {
  const species = session.species.of(draft.species);
  if (draft.killDate) refuseFuture(draft.killDate, session.today(), 'killDate');
  const terms = session.settings.dropOffTerms;
  if (draft.terms !== terms) throw new ProblemError('conflict', 'draft.terms-changed', { field: 'terms' });
  if (terms !== '' && draft.signature === '')
    throw new ProblemError('invalid', 'signature.needed', { field: 'signature' });
  const stationId = actor()?.stationId ?? null;
  const { drafts } = session.book;
  if (drafts.countOpen(stationId, draftsSince(session)) >= MOST_OPEN)
    throw new ProblemError('refused', 'draft.too-many', { with: { count: MOST_OPEN } });
  const orders = instructions && normalizeOrders(species, [], instructions);
  return {
    id: drafts.add({
      ...draft,
      stationId,
      instructions: orders ? JSON.stringify(orders) : null,
      at: session.now(),
      by: initials,
    }),
  };
});

/** What waits for the counter, oldest first. */
export const list = read(v.object({}), (session): DraftRow[] =>
  session.book.drafts.open(draftsSince(session)).map((draft) => draftRow(session, draft)),
);

/**
 * Puts a draft aside that becomes no ticket.
 * @throws ProblemError `draft.unknown` (missing), `draft.taken` (refused), `draft.dismissed` (conflict)
 */
export const dismiss = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  openDraft(session, input.id, 'id');
  session.book.drafts.dismiss(input.id, input.reason, { at: session.now(), by: input.by });
  return { id: input.id };
});

/**
 * Undoes `dismiss`.
 * @throws ProblemError `draft.unknown` (missing), `draft.taken` (refused), `draft.not-dismissed` (conflict)
 */
export const restore = write(v.object({ id, by }), (session, input) => {
  if (presentDraft(session, input.id, 'id').state === 'open')
    throw new ProblemError('conflict', 'draft.not-dismissed', { field: 'id' });
  session.book.drafts.reopen(input.id, { at: session.now(), by: input.by });
  return { id: input.id };
});

/**
 * Marks a draft as the animal that it became. Call inside the transaction of the intake.
 * @throws ProblemError `draft.unknown` (missing), `draft.taken` (refused), `draft.dismissed` (conflict)
 */
export function takeDraft(session: Session, draftId: number, animalId: number, initials: string): void {
  openDraft(session, draftId, 'draftId');
  session.book.drafts.take(draftId, animalId, { at: session.now(), by: initials });
}

function openDraft(session: Session, draftId: number, field: string): void {
  if (presentDraft(session, draftId, field).state === 'dismissed')
    throw new ProblemError('conflict', 'draft.dismissed', { field });
}

/** A draft that is no ticket yet and still has its details. */
function presentDraft(session: Session, draftId: number, field: string): DraftNow {
  const draft = session.book.drafts.get(draftId);
  if (!draft || draft.detailsRemovedAt !== null)
    throw new ProblemError('missing', 'draft.unknown', { field });
  if (draft.animalId === null) return draft;
  const ticket = session.book.animals.get(draft.animalId)?.ticket ?? '';
  throw new ProblemError('refused', 'draft.taken', { field, with: { ticket } });
}

/** Who came before under both that name and that number. */
function knownAs(session: Session, { name, phone }: DraftNow): HunterCard | null {
  const digits = phoneKey(phone);
  if (digits.length < LEAST_DIGITS) return null;
  const found = session.book.hunters
    .find(digits)
    .find((one) => phoneKey(one.phone) === digits && nameKey(one.name) === nameKey(name));
  return found ? hunterCard(found) : null;
}

function draftRow(session: Session, draft: DraftNow): DraftRow {
  const { id: draftId, at, name, phone, licence, tag, species, killDate, killArea } = draft;
  return {
    id: draftId,
    at,
    language: isHunterLanguage(draft.language) ? draft.language : '',
    name,
    phone,
    licence,
    tag,
    species,
    sex: draft.sex as Sex,
    killDate,
    killArea,
    instructions: draft.instructions === null ? null : (JSON.parse(draft.instructions) as Instructions),
    known: knownAs(session, draft),
    signed: draft.signature !== '',
  };
}
