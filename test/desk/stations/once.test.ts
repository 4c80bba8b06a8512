/**
 * Thousands of entries of several stations over a line that repeats, swaps and drops them, on a desk that fails between rows and
 * receipt and is opened again: none is lost, none doubled, and the order of each station stays. Checked against each station's own list.
 */
import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import type { OutboxEntry, Taken } from '../../../src/desk/contract/stations.ts';
import { runs } from '../../runs.ts';
import { deskOn } from '../fresh-desk.ts';
import { floorOn, freshFloor, outbox, type Floor } from './floor.ts';

const STATIONS = 4;
const EACH = runs(1000);
const SEED = 20_261_010;

/** Mulberry32, a seeded generator of 32 bits. */
function random(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 2 ** 32) * below);
  };
}

interface Sender {
  secret: string;
  entries: OutboxEntry[];
  /** Taken by the desk; one more than the station knows of while an answer is lost. */
  kept: number;
  acknowledged: number;
  answers: Map<number, string>;
}

/** Every tenth has no name and is refused; the answer stands under its number all the same. */
const inputOf = (station: number, n: number) =>
  n % 10 === 0 ? { name: '' } : { name: `Hunter ${station}-${n}`, by: `S${station}` };

/** Makes the receipt of one entry fail after its rows are written, as when the disk is gone in between. */
const failsAt = ({ id, number }: OutboxEntry) => ({
  begin: `CREATE TEMP TRIGGER fails_${number}_${id.slice(0, 8)} BEFORE INSERT ON main.station_entry WHEN NEW.entry = '${id}'
    BEGIN SELECT RAISE(ABORT, 'cut off'); END`,
  end: `DROP TRIGGER fails_${number}_${id.slice(0, 8)}`,
});

it(`takes ${STATIONS * EACH} entries once and in order`, async () => {
  const pick = random(SEED);
  let floor: Floor = await freshFloor();
  const senders: Sender[] = [];
  for (let s = 0; s < STATIONS; s++) {
    const { secret } = await floor.pair('office', `Office ${s}`);
    const entry = outbox(floor, secret);
    const entries = Array.from({ length: EACH }, (_, i) => entry('hunters.save', inputOf(s, i + 1)));
    senders.push({ secret, entries, kept: 0, acknowledged: 0, answers: new Map() });
  }
  const faults = { repeated: 0, gaps: 0, changed: 0, cut: 0, reopened: 0 };

  function check({ answers }: Sender, { number }: OutboxEntry, taken: Taken): void {
    if (!taken.taken) throw new Error(JSON.stringify(taken));
    const answer = JSON.stringify(taken.answer);
    expect(answers.get(number) ?? answer).toBe(answer);
    answers.set(number, answer);
  }

  async function reopen(): Promise<void> {
    floor.desk.close({ backUp: false });
    floor = await floorOn(await deskOn(floor.bookPath));
    faults.reopened += 1;
  }

  async function step(sender: Sender): Promise<void> {
    const { secret, entries } = sender;
    const next = entries[sender.acknowledged];
    if (!next) return;
    const send = (sent: OutboxEntry) => floor.door.take(secret, sent);
    const dice = pick(1000);
    if (dice < 150 && sender.acknowledged > 0) {
      const old = entries[pick(sender.acknowledged)] ?? next;
      const taken = await send(old);
      expect(taken).toMatchObject({ taken: true, repeated: true });
      check(sender, old, taken);
      faults.repeated += 1;
    } else if (dice < 230) {
      const ahead = entries[sender.kept + 1 + pick(20)];
      if (!ahead) return;
      expect(await send(ahead)).toMatchObject({ taken: false, expected: sender.kept + 1 });
      faults.gaps += 1;
    } else if (dice < 260 && sender.acknowledged > 0) {
      const old = entries[pick(sender.acknowledged)] ?? next;
      expect(await send({ ...old, input: { name: 'Somebody else' } })).toMatchObject({ taken: false });
      faults.changed += 1;
    } else if (dice < 300 && next.number > sender.kept) {
      const db = floor.desk.session()?.book.db;
      const fault = failsAt(next);
      db?.exec(fault.begin);
      expect(await send(next)).toMatchObject({ taken: false, expected: null, problem: { kind: 'broken' } });
      db?.exec(fault.end);
      faults.cut += 1;
    } else {
      // The answer is lost on one way in ten: the station asks again without having noticed.
      const taken = await send(next);
      check(sender, next, taken);
      sender.kept = next.number;
      if (pick(10) > 0) sender.acknowledged += 1;
    }
  }

  while (senders.some(({ acknowledged }) => acknowledged < EACH)) {
    // Some entries of several stations at once, as lines bring them.
    await Promise.all(senders.filter(() => pick(3) > 0).map(step));
    if (pick(150) === 0) await reopen();
  }
  floor.desk.close();

  const db = new Database(floor.bookPath, { readonly: true });
  const hunters = db
    .prepare<[], { name: string }>("SELECT name FROM hunter WHERE name LIKE 'Hunter %' ORDER BY id")
    .all();
  const kept = db
    .prepare<[], { line: string; number: number; entry: string }>(
      'SELECT l.line, e.number, e.entry FROM station_entry e JOIN station_line l ON l.id = e.line_id ORDER BY e.id',
    )
    .all();
  const strangers = db.prepare("SELECT * FROM hunter WHERE name = 'Somebody else'").all();
  db.close();
  expect(strangers).toEqual([]);
  expect(kept).toHaveLength(STATIONS * EACH);
  senders.forEach(({ entries }, s) => {
    const line = entries[0]?.line;
    const of = kept.filter((one) => one.line === line);
    expect(of.map(({ entry }) => entry)).toEqual(entries.map(({ id }) => id));
    const names = hunters.map(({ name }) => name).filter((name) => name.startsWith(`Hunter ${s}-`));
    const wanted = entries.map((_, i) => i + 1).filter((n) => n % 10 !== 0);
    expect(names).toEqual(wanted.map((n) => `Hunter ${s}-${n}`));
  });
  // Each fault came, or this would prove nothing of it.
  for (const times of Object.values(faults)) expect(times).toBeGreaterThan(2);
}, 240_000);
