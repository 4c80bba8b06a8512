/** One entry of a station's outbox as it arrives, and its place in the book: exactly once, in the order of its line. */
import { createHash } from 'node:crypto';
import * as v from 'valibot';
import { ProblemError, type Answer, type Problem } from '../contract/problem.ts';
import { WIRE, type OutboxEntry, type Taken } from '../contract/stations.ts';
import type { Session } from '../session/session.ts';
import { lineageOf } from './settings.ts';

/** More than the largest entry of a floor place, an intake with its orders. */
const MOST_CHARACTERS = 64_000;

const uuid = v.pipe(v.string(), v.uuid());
const short = (most: number) => v.pipe(v.string(), v.maxLength(most));
const shape = v.object({
  wire: v.literal(1),
  line: uuid,
  number: v.pipe(v.number(), v.safeInteger(), v.minValue(1)),
  id: uuid,
  lineage: short(100),
  name: short(100),
  input: v.unknown(),
  at: v.pipe(v.string(), v.isoTimestamp()),
  aheadMs: v.pipe(v.number(), v.safeInteger()),
  person: v.optional(short(100)),
  said: v.optional(short(6)),
  makes: v.optional(uuid),
});

/** @throws ProblemError `entry.wire`, `entry.unreadable`, `entry.too-large` */
export function readEntry(sent: unknown): OutboxEntry {
  const wire: unknown = typeof sent === 'object' && sent !== null && 'wire' in sent ? sent.wire : undefined;
  if (typeof wire === 'number' && wire > WIRE) throw new ProblemError('refused', 'entry.wire');
  const checked = v.safeParse(shape, sent);
  if (!checked.success) throw new ProblemError('invalid', 'entry.unreadable');
  if ((JSON.stringify(checked.output.input) ?? '').length > MOST_CHARACTERS)
    throw new ProblemError('invalid', 'entry.too-large');
  return checked.output;
}

/** SHA-256 of what a person entered, in whatever order its fields come. How it was sent (session, clock, book) is no part of it. */
export function digestOf({ wire, id, name, input, at, said, makes }: OutboxEntry): string {
  return createHash('sha256')
    .update(sorted([wire, id, name, input, at, said ?? '', ...(makes === undefined ? [] : [makes])]))
    .digest('hex');
}

function sorted(value: unknown): string {
  return JSON.stringify(value, (_, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}

/** The answer of an entry. */
export type Receipt = Answer<Record<string, number>>;

/**
 * Call inside a transaction: what an entry did and its receipt are written together, or not at all.
 * @param doIt what the entry asks for, or the problem with it; its rows are rolled back where it is a problem
 */
export function takeOnce(
  session: Session,
  stationId: number,
  entry: OutboxEntry,
  who: { person: string; checked: boolean },
  doIt: () => Receipt,
): Taken {
  const { stationEntries } = session.book;
  const line = stationEntries.line(entry.line);
  if (line && line.stationId !== stationId) return notTaken('refused', 'entry.other-line', null);
  const last = line ? stationEntries.last(line.id) : 0;
  const digest = digestOf(entry);
  if (line && entry.number <= last) return again(session, line.id, entry.number, digest, last);
  if (entry.number !== last + 1) return notTaken('conflict', 'entry.gap', last + 1);
  if (entry.lineage !== lineageOf(session.book)) return notTaken('conflict', 'entry.other-book', null);
  if (stationEntries.isTaken(entry.id)) return notTaken('conflict', 'entry.twice', last + 1);
  const answer = doIt();
  const stamp = { at: session.now(), by: who.person };
  const lineId = line?.id ?? stationEntries.addLine({ stationId, line: entry.line, ...stamp });
  stationEntries.add({
    lineId,
    number: entry.number,
    entry: entry.id,
    digest,
    wire: entry.wire,
    call: entry.name,
    answer: JSON.stringify(answer),
    ...who,
    typedAt: entry.at,
    aheadMs: entry.aheadMs,
    ...stamp,
  });
  return { taken: true, number: entry.number, repeated: false, answer };
}

/** An entry that stands already: the same is answered as before, another is refused. */
function again(session: Session, lineId: number, number: number, digest: string, last: number): Taken {
  const stored = session.book.stationEntries.get(lineId, number);
  if (stored?.digest !== digest) return notTaken('conflict', 'entry.other-payload', last + 1);
  return { taken: true, number, repeated: true, answer: JSON.parse(stored.answer) as Receipt };
}

const notTaken = (kind: Problem['kind'], code: string, expected: number | null): Taken => ({
  taken: false,
  expected,
  problem: { kind, code, ...(expected !== null && { with: { expected } }) },
});
