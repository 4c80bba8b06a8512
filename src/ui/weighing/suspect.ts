/** A saved weight that does not fit the others: which one is asked about, and in which words. Pure. */
import type { AnimalPage, Suspect, WeighingRow } from '../../bridge/contract.ts';
import { hasLeft } from '../../trade/animal.ts';
import { text } from '../../words/compiled/window/doubts.ts';
import type { Format } from '../texts/format.ts';
import { typedWithUnit } from '../texts/typed.ts';
import { weighingName } from './weighing-name.ts';

/** Slips that have words of their own. */
const SLIPS = [
  'digits-swapped',
  'decimal-slipped',
  'wrong-unit',
  'digit-wrong',
  'digit-missing',
  'digit-doubled',
  'tare-left-in',
] as const;

export interface SuspectRow {
  suspect: Suspect;
  row: WeighingRow;
}

/** The suspect to ask about; null if there is none. @param answered whether somebody stood by the weight */
export function suspectOf(page: AnimalPage, answered: (weighingId: number) => boolean): SuspectRow | null {
  // An animal cut in one go has mostly unweighed parts: only an excess is a finding.
  if (page.detail === 'quick' && page.balance.overGrams === 0) return null;
  const suspect = page.balance.suspects.find(({ weighingId }) => !answered(weighingId));
  const row = page.weighings.find(({ id }) => id === suspect?.weighingId);
  return suspect && row ? { suspect, row } : null;
}

export function suspectSentence(page: AnimalPage, { suspect, row }: SuspectRow, format: Format): string {
  const over = page.balance.overGrams;
  const typed = typedWithUnit(row.typed, row.unit);
  const name = weighingName(row, page.primals);
  const why = over > 0 ? text.over({ typed, name, over: format.mass(over) }) : text.misfit({ typed, name });
  return [why, likelyCause(suspect, row, hasLeft(page))].filter(Boolean).join(' ');
}

function likelyCause(
  { twice, otherAnimal, likely }: Suspect,
  { unit }: WeighingRow,
  closed: boolean,
): string {
  if (twice) return text.perhapsTwice;
  if (otherAnimal) return text.perhapsOther;
  if (!likely) return '';
  const sentenceOf = closed ? text.perhapsGone : text.perhaps;
  const slip = SLIPS.find((one) => one === likely.kind) ?? 'other';
  return sentenceOf({ slip, typed: typedWithUnit(likely.typed, unit) });
}
