import type { DraftNow } from '../../../book/records/stations/drafts.ts';
import { nameKey, phoneKey } from '../../../book/records/hunters.ts';
import { isHunterLanguage } from '../../../words/hunter-language.ts';
import { hunterCard } from '../../animal/hunters.ts';
import type { DraftRow, HunterCard, Instructions, Sex } from '../../contract/contract.ts';
import type { Session } from '../../session/session.ts';

/** A local number; fewer digits tell nobody apart. */
const LEAST_DIGITS = 7;

/** A draft as the counter sees it. */
export function draftRow(session: Session, draft: DraftNow): DraftRow {
  const { id, at, name, phone, licence, tag, species, killDate, killArea, slip } = draft;
  return {
    id,
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
    slip,
    byPhone: draft.byPhone === 1,
  };
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
