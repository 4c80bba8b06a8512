/** Rules broken on purpose, around the desk or in its memory of the book: the model must find each. None of this is in the program. */
import Database from 'better-sqlite3';
import type { Desk } from '../../src/desk/desk.ts';
import { breakBook, ignored, type BookBreak } from './broken-book.ts';
import { historyOf, run } from './history.ts';
import { Tally } from './tally.ts';

export interface BrokenRule {
  what: string;
  /** Found within so many steps, or not at all. */
  within: number;
  around?: (desk: Desk, bookPath: string) => Desk;
  book?: BookBreak;
}

type Call = Desk['call'];
const atDesk =
  (call: (desk: Desk, bookPath: string) => Call) =>
  (desk: Desk, bookPath: string): Desk => ({ ...desk, call: call(desk, bookPath) });

export const BROKEN: readonly BrokenRule[] = [
  {
    what: 'a payment is kept twice',
    within: 1500,
    around: atDesk((desk) => async (name, input, opening) => {
      const answer = await desk.call(name, input, opening);
      return name === 'bills.pay' && answer.ok ? desk.call(name, { ...(input as object), confirmed: true }, opening) : answer;
    }),
  },
  { what: 'a bill loses its second line', within: 1500, book: { temporary: ignored('INSERT', 'bill_line', 'NEW.position = 1') } },
  {
    what: 'a waiting test holds nothing',
    within: 3000,
    book: { temporary: 'CREATE TEMP VIEW hold_now AS SELECT * FROM main.hold_now WHERE positive = 1;' },
  },
  {
    what: 'a hold that comes after the grinding frees whoever shares it',
    within: 10_000,
    book: { rewrite: (sql) => (sql.includes('batch_animal mine') && sql.includes('hold_now') ? sql.replace(' WHERE ', ' WHERE 0 AND ') : sql) },
  },
  {
    what: 'who was ready before the hold is handed over',
    within: 20_000,
    around: atDesk((desk) => async (name, input, opening) => {
      const answer = await desk.call(name, input, opening);
      const pooled = !answer.ok && answer.problem.code.startsWith('pooled.');
      return pooled && name === 'pickup.release' ? { ok: true, value: { id: (input as { id: number }).id } } : answer;
    }),
  },
  { what: 'voided weights stay in the sums', within: 3000, book: { temporary: ignored('UPDATE', 'animal_sum', 'NEW.trim < OLD.trim OR NEW.received < OLD.received OR NEW.hanging < OLD.hanging') } },
  { what: 'a voided payment still counts', within: 5000, book: { temporary: ignored('INSERT', 'payment_void', '1') } },
  {
    what: 'a voided weight does not give its fat back',
    within: 30_000,
    book: { temporary: ignored('INSERT', 'fat_movement', "NEW.kind = 'voided' AND NEW.weighing_id IS NOT NULL") },
  },
  { what: 'a ticket that an animal had before is forgotten', within: 30_000, book: { temporary: ignored('INSERT', 'former_ticket', '1') } },
  {
    what: 'voiding a bill removes lines of the trail',
    within: 10_000,
    around: atDesk((desk, bookPath) => async (name, input, opening) => {
      const answer = await desk.call(name, input, opening);
      if (name === 'bills.void' && answer.ok) removeFromTrail(bookPath);
      return answer;
    }),
  },
  {
    what: 'a window writes into a book that it does not show',
    within: 20_000,
    around: atDesk((desk) => (name, input) => desk.call(name, input)),
  },
  {
    what: 'a clock that stands a year off is believed',
    within: 10_000,
    around: atDesk((desk) => async (name, input, opening) => {
      const answer = await desk.call(name, input, opening);
      const doubted = !answer.ok && ['clock.ahead', 'clock.behind'].includes(answer.problem.code);
      if (!doubted) return answer;
      await desk.call('shop.trustClock', {}, opening);
      return desk.call(name, input, opening);
    }),
  },
  { what: 'a batch of the smokehouse keeps a weight that was voided', within: 20_000, book: { temporary: ignored('INSERT', 'made_stage_void', '1') } },
  { what: 'a batch that was taken out of a load stays in it', within: 20_000, book: { temporary: ignored('INSERT', 'load_batch_void', '1') } },
  { what: 'trim of a batch is taken from nobody', within: 10_000, book: { temporary: ignored('UPDATE', 'animal_sum', 'NEW.trim_ground > OLD.trim_ground') } },
]; // prettier-ignore

/** The guard is put back word for word, so the book is built as before. */
function removeFromTrail(bookPath: string): void {
  const db = new Database(bookPath);
  const guard = db.prepare<[], string>("SELECT sql FROM sqlite_schema WHERE name = 'audit_no_delete'").pluck().get() ?? '';
  db.transaction(() => db.exec(`DROP TRIGGER audit_no_delete; DELETE FROM audit WHERE id = (SELECT min(id) FROM audit); ${guard};`))();
  db.close();
} // prettier-ignore

/** What shows that the desk noticed by itself that its book was tampered with, or fell over: that proves nothing of the model. */
const NOTICED_BY_THE_DESK = /book\.altered|the desk broke|a broken answer/;

export interface Found {
  steps: number;
  /** What was noticed, or null where nothing was. */
  wrong: string | null;
}

/**
 * Drives histories at a desk with this rule broken until the model notices.
 * @throws Error when it is the desk that notices, or when an unbroken desk does the same
 */
export async function findBroken({ around, book, within }: BrokenRule, seed: number, length: number): Promise<Found> {
  const tally = new Tally();
  const breaks = { ...(around && { around }), ...(book && { prepare: (bookPath: string) => breakBook(bookPath, book) }) };
  for (let n = 0; tally.steps < within; n++) {
    const history = historyOf(seed, n, length);
    const { wrong } = await run(history, { tally, ...breaks, compareEvery: 20 });
    if (wrong === null) continue;
    if (NOTICED_BY_THE_DESK.test(wrong)) throw new Error(`the desk noticed, not the model: ${wrong}`);
    // What an unbroken desk does as well is a finding of its own, and none of this rule.
    const whole = await run(history, { compareEvery: 20 });
    if (whole.wrong !== null) throw new Error(`without the broken rule: ${whole.wrong}`);
    return { steps: tally.steps, wrong };
  }
  return { steps: tally.steps, wrong: null };
} // prettier-ignore
