import type { RecordRow } from '../../bridge/contract.ts';
import { kindName } from '../belongings/belonging-words.ts';
import { text as belongingText } from '../../words/compiled/window/belongings.ts';
import { text as shareText } from '../../words/compiled/window/shares.ts';
import { text as leavingText } from '../../words/compiled/window/leaving.ts';
import { text } from '../../words/compiled/window/books/record.ts';
import { text as holdText } from '../../words/compiled/window/hold.ts';
import { text as loadText } from '../../words/compiled/window/smokehouse-load.ts';
import { listText } from '../../words/list.ts';
import type { Format } from '../texts/format.ts';

/** The number of entries, and how many are incomplete. */
export function countsOf(rows: readonly RecordRow[]): string {
  const incomplete = rows.filter(({ lacks }) => lacks.length > 0).length;
  const late = rows.filter(({ lateDays }) => lateDays > 0).length;
  return text.entries({ n: rows.length, incomplete, late });
}

/** The stacked lines of one cell of the record book, on screen and on paper. */
export function papersOf({ licence, tag }: RecordRow): string[] {
  return [licence && text.licenceIs({ licence }), tag && text.tagIs({ tag })].filter((line) => line !== '');
}

export function weightsOf(row: RecordRow, format: Format): string[] {
  const weightLine = (grams: number | null, word: (values: { mass: string }) => string): string =>
    grams === null ? '' : word({ mass: format.mass(grams) });
  return [
    weightLine(row.receivedGrams, text.weightReceived),
    weightLine(row.hangingGrams, text.weightHanging),
    weightLine(row.packedGrams, text.weightPacked),
    row.groundPackages > 0
      ? text.weightGround({ packages: row.groundPackages, mass: format.mass(row.groundGrams) })
      : '',
  ].filter((one) => one !== '');
}

/**
 * Products of the smokehouse with its meat, one line each: its part, whose meat is with it, how much nitrite went in, what the logs
 * say of the heat, what was decided.
 */
export function madeText({ made }: Pick<RecordRow, 'made'>, format: Pick<Format, 'mass'>): string[] {
  return made.map(({ name, product, grams, packages, others, nitritePpm, heat, decided }) =>
    [
      text.madeLine({ product, batch: name, packages, mass: format.mass(grams) }),
      others.length > 0 && text.madeWith({ tickets: listText(others) }),
      nitritePpm !== null && text.madeNitrite({ ppm: Math.round(nitritePpm * 10) / 10 }),
      text.madeHeat[heat],
      decided && text.madeDecided({ what: loadText.decisions[decided] }),
    ]
      .filter(Boolean)
      .join('; '),
  );
}

/** What its hunter takes home in grams: packed for it alone, and its share of what was ground. Null before packing. */
export function takeHomeOf({ packedGrams, groundGrams, groundPackages }: RecordRow): number | null {
  return packedGrams === null && groundPackages === 0 ? null : (packedGrams ?? 0) + groundGrams;
}

/** Its hold, laboratory results, and the positive results of other animals that affect it. */
export function heldOf(row: RecordRow, day: (date: string) => string): string[] {
  return [
    row.hold === null ? '' : text.onHold({ why: row.hold }),
    ...row.results.map(({ result, on, sample, lab }) =>
      text.resultLine({ result: holdText.results[result], on: day(on), sample, lab }),
    ),
    row.affectedBy.length > 0 ? text.affectedBy({ tickets: listText(row.affectedBy) }) : '',
  ].filter((one) => one !== '');
}

export function moneyOf({ money, dueMinor, currency }: RecordRow, format: Format): string {
  return money === 'open' ? text.owes({ money: format.money(dueMinor, currency) }) : text.money[money];
}

/** Its belongings besides meat, one line each, with where each went. */
export function belongingsText({ belongings }: RecordRow, format: Pick<Format, 'day'>): string[] {
  return belongings.map(({ kind, tag, evidence, went, name, on }) =>
    [
      kindName(kind),
      tag && text.tagIs({ tag }),
      evidence && belongingText.evidenceShort,
      went && belongingText.wentTo({ went, name }),
      on && format.day(on),
    ]
      .filter(Boolean)
      .join(', '),
  );
}

/**
 * The other hunters who share it: share, phone number, and who picked up which share when.
 * @param phoneText how a phone number is written
 */
export function sharersText(
  { sharers }: RecordRow,
  format: Pick<Format, 'share' | 'day'>,
  phoneText = (phone: string): string => phone,
): string[] {
  return sharers.map(({ name, phone, share, taken }) =>
    [
      shareText.line({ name, share: format.share(share, 1) }),
      phoneText(phone),
      taken && shareText.taken({ to: taken.to, day: format.day(taken.on) }),
    ]
      .filter(Boolean)
      .join(', '),
  );
}

/** What was donated from it, and to which program. */
export function donationsText({ donations }: RecordRow, format: Pick<Format, 'day' | 'mass'>): string[] {
  return donations.map(({ program, grams, confirmation, on }) =>
    [
      leavingText.donated({ mass: format.mass(grams), program, day: format.day(on) }),
      confirmation && leavingText.confirmationIs({ number: confirmation }),
    ]
      .filter(Boolean)
      .join(', '),
  );
}

/** Who delivered it, with address, if not the owner. */
export function delivererOf({ deliverer, delivererAddress }: RecordRow): string {
  return deliverer === ''
    ? ''
    : [text.broughtBy({ name: deliverer }), delivererAddress].filter(Boolean).join(', ');
}
