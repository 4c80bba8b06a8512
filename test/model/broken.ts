/** Rules broken on purpose, around the desk or in its book: each must be found. None of this is in the program. */
import Database from 'better-sqlite3';
import type { Desk } from '../../src/desk/desk.ts';
import { historyOf, run } from './history.ts';
import { Tally } from './tally.ts';

export interface BrokenRule {
  what: string;
  /** Found within so many steps, or not at all. */
  within: number;
  around: (desk: Desk, bookPath: string) => Desk;
}

const inBook = (sql: string) => (desk: Desk, bookPath: string): Desk => {
  const db = new Database(bookPath);
  db.exec(sql);
  db.close();
  return desk;
}; // prettier-ignore

const atDesk =
  (call: (desk: Desk) => Desk['call']) =>
  (desk: Desk): Desk => ({ ...desk, call: call(desk) });

const HOLDS = 'SELECT h.id, h.animal_id, h.reason, h.sample, h.at, h.by, 0 AS positive FROM hold h';
const forgotten = (table: string, when = ''): string =>
  `CREATE TRIGGER IF NOT EXISTS forgotten BEFORE INSERT ON ${table} ${when} BEGIN SELECT RAISE(IGNORE); END;`;

export const BROKEN: readonly BrokenRule[] = [
  {
    what: 'a payment is kept twice',
    within: 1500,
    around: atDesk((desk) => async (name, input, opening) => {
      const answer = await desk.call(name, input, opening);
      return name === 'bills.pay' && answer.ok ? desk.call(name, { ...(input as object), confirmed: true }, opening) : answer;
    }),
  },
  { what: 'a bill loses its second line', within: 1500, around: inBook(forgotten('bill_line', 'WHEN NEW.position = 1')) },
  {
    what: 'a waiting test holds nothing',
    within: 3000,
    around: inBook(`DROP VIEW hold_now; CREATE VIEW hold_now AS ${HOLDS} WHERE 0;`),
  },
  {
    what: 'a hold that comes after the grinding frees whoever shares it',
    within: 30_000,
    around: atDesk((desk) => async (name, input, opening) => {
      const answer = await desk.call(name, input, opening);
      const pooled = !answer.ok && answer.problem.code.startsWith('pooled.');
      if (!pooled || name !== 'pickup.release') return answer;
      const { id } = input as { id: number };
      return { ok: true, value: { id } };
    }),
  },
  {
    what: 'voided weights stay in the sums',
    within: 3000,
    around: inBook('DROP TRIGGER IF EXISTS animal_sum_of_voided;'),
  },
  { what: 'a voided payment still counts', within: 5000, around: inBook(forgotten('payment_void')) },
  {
    what: 'a voided weight does not give its fat back',
    within: 30_000,
    around: inBook(forgotten('fat_movement', "WHEN NEW.kind = 'voided' AND NEW.weighing_id IS NOT NULL")),
  },
  { what: 'a ticket that an animal had before is forgotten', within: 30_000, around: inBook(forgotten('former_ticket')) },
  {
    what: 'voiding a bill removes lines of the trail',
    within: 10_000,
    around: inBook(`DROP TRIGGER IF EXISTS audit_no_delete;
      CREATE TRIGGER IF NOT EXISTS removed AFTER INSERT ON bill_void BEGIN DELETE FROM audit WHERE id = (SELECT min(id) FROM audit); END;`),
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
  {
    what: 'trim of a batch is taken from nobody',
    within: 10_000,
    around: inBook(`DROP TRIGGER IF EXISTS animal_sum_of_weighed;
      CREATE TRIGGER animal_sum_of_weighed AFTER INSERT ON weighing WHEN NEW.animal_id IS NOT NULL AND NEW.batch_id IS NULL BEGIN
        INSERT INTO animal_to_add_up VALUES (NEW.animal_id);
      END;`),
  },
]; // prettier-ignore

export interface Found {
  steps: number;
  /** What was noticed, or null where nothing was. */
  wrong: string | null;
}

/** Drives histories at a desk with this rule broken until it is noticed. */
export async function findBroken({ around, within }: BrokenRule, seed: number, length: number): Promise<Found> {
  const tally = new Tally();
  for (let n = 0; tally.steps < within; n++) {
    const history = historyOf(seed, n, length);
    const { wrong } = await run(history, { tally, around, compareEvery: 20 });
    if (wrong === null) continue;
    // What an unbroken desk does as well is a finding of its own, and none of this rule.
    const whole = await run(history, { compareEvery: 20 });
    if (whole.wrong !== null) throw new Error(`without the broken rule: ${whole.wrong}`);
    return { steps: tally.steps, wrong };
  }
  return { steps: tally.steps, wrong: null };
} // prettier-ignore
