/** A hunter's own check-in: a draft of an intake, which the counter turns into a ticket or dismisses. */
import * as v from 'valibot';
import { actor } from '../../../book/changes/acting.ts';
import type { DraftNow, NewDraft } from '../../../book/records/stations/drafts.ts';
import { isHunterLanguage } from '../../../words/hunter-language.ts';
import { normalizeOrders } from '../../animal/orders.ts';
import type { DraftRow, SignedTerms } from '../../contract/contract.ts';
import { ProblemError } from '../../contract/problem.ts';
import { refuseFuture } from '../../input/day-doubts.ts';
import { by, id, needed } from '../../input/input.ts';
import { localDate } from '../../input/local-date.ts';
import { dropOffTerms } from '../../session/drop-off-terms.ts';
import { problemOfInput } from '../../session/problem-of.ts';
import { read, write } from '../../session/procedure.ts';
import type { Session } from '../../session/session.ts';
import { newDraft, phoneDraft } from './draft-input.ts';
import { draftsSince } from './draft-age.ts';
import { draftRow } from './draft-row.ts';
import { blankSlip, takeSlip } from './slips.ts';

/** Open drafts of one station, or of all phones: more hunters than wait at a counter, and an end to what a child can type. Our choice, no source. */
const MOST_OPEN = 40;

/**
 * Keeps what a hunter typed at the check-in, signed. It is no ticket yet.
 * @throws ProblemError `draft.terms-changed` (conflict), `signature.needed` (invalid); and as `keepDraft`
 */
export const add = write(newDraft, (session, { terms, signature, ...draft }) => {
  const { text, language, since } = dropOffTerms(session, draft.language);
  if (terms !== text) throw new ProblemError('conflict', 'draft.terms-changed', { field: 'terms' });
  if (text !== '' && signature === '')
    throw new ProblemError('invalid', 'signature.needed', { field: 'signature' });
  const signed = text === '' ? UNSIGNED : { terms, termsLanguage: language, termsSince: since, signature };
  return keepDraft(session, draft, { ...signed, stationId: actor()?.stationId ?? null, byPhone: 0 });
});

/**
 * Keeps what a hunter typed on a phone. The terms are signed at the counter.
 * @param typed what the phone sent
 * @throws ProblemError as the input's schema, and as `keepDraft`
 */
export function addByPhone(session: Session, typed: unknown): { id: number } {
  const read = v.safeParse(phoneDraft, typed, { abortPipeEarly: true });
  if (!read.success) {
    const { kind, code, ...at } = problemOfInput(read.issues[0]);
    throw new ProblemError(kind, code, at);
  }
  return keepDraft(
    session,
    { ...read.output, licence: '', by: '' },
    { ...UNSIGNED, stationId: null, byPhone: 1 },
  );
}

const UNSIGNED = { terms: '', termsLanguage: '', termsSince: null, signature: '' } as const;

/**
 * @throws ProblemError `species.unknown`, `primal.unknown`, `date.future` (invalid), `slip.unknown` (missing), `slip.used`,
 *   `slip.filled`, `draft.too-many` (refused)
 */
function keepDraft(
  session: Session,
  { instructions, slip, by: initials, ...draft }: Omit<v.InferOutput<typeof newDraft>, 'terms' | 'signature'>,
  from: Pick<NewDraft, 'terms' | 'termsLanguage' | 'termsSince' | 'signature' | 'stationId' | 'byPhone'>,
): { id: number } {
  const species = session.species.of(draft.species);
  if (draft.killDate) refuseFuture(draft.killDate, session.today(), 'killDate');
  const { drafts } = session.book;
  if (drafts.countOpen(from, draftsSince(session)) >= MOST_OPEN)
    throw new ProblemError('refused', 'draft.too-many', { with: { count: MOST_OPEN } });
  const orders = instructions && normalizeOrders(species, [], instructions);
  return {
    id: drafts.add({
      ...draft,
      ...from,
      slipId: slip === undefined ? null : blankSlip(session, slip).id,
      instructions: orders ? JSON.stringify(orders) : null,
      at: session.now(),
      by: initials,
    }),
  };
}

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
 * @throws ProblemError `draft.unknown` (missing), `draft.taken`, `slip.used` (refused), `draft.dismissed` (conflict)
 */
export function takeDraft(session: Session, draftId: number, animalId: number, initials: string): void {
  const { slip } = openDraft(session, draftId, 'draftId');
  if (slip !== null) takeSlip(session, slip, { animalId, own: true, by: initials });
  session.book.drafts.take(draftId, animalId, { at: session.now(), by: initials });
}

function openDraft(session: Session, draftId: number, field: string): DraftNow {
  const draft = presentDraft(session, draftId, field);
  if (draft.state === 'dismissed') throw new ProblemError('conflict', 'draft.dismissed', { field });
  return draft;
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

/** The terms that were signed for a draft, or for the animal that it became; null: none, or the details were removed. */
export const getSigned = read(
  v.union([v.object({ animalId: id }), v.object({ draftId: id })], 'input.invalid'),
  (session, input): SignedTerms | null => {
    const { drafts } = session.book;
    const draft = 'animalId' in input ? drafts.ofAnimal(input.animalId) : drafts.get(input.draftId);
    if (!draft || draft.signature === '') return null;
    const { name, terms, termsLanguage: language, termsSince: since, signature } = draft;
    const dayOf = (moment: string): string => localDate(new Date(moment), session.settings.zone);
    return {
      name,
      terms,
      language: isHunterLanguage(language) ? language : '',
      since: since && dayOf(since),
      signature,
      on: dayOf(draft.at),
    };
  },
);
