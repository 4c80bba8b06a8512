/** Sends a station's outbox: in order, each entry exactly once, however often the line breaks. */
import type { Answer, Problem } from '../../../desk/contract/problem.ts';
import { WIRE, type OutboxEntry, type Taken } from '../../../desk/contract/stations.ts';

/** What became of an entry. `asks` and `refused` wait for a person; `dropped` and `replaced` are what a person decided. */
export type Outcome =
  | { state: 'waiting' }
  | { state: 'saved'; answer: Record<string, number> }
  /** The desk doubts it: a person confirms or corrects it. */
  | { state: 'asks'; problem: Problem }
  | { state: 'refused'; problem: Problem }
  | { state: 'dropped'; problem: Problem }
  | { state: 'replaced'; problem: Problem; by: string }
  /** Made in another book, and left out of this one by the shop. */
  | { state: 'left' };

/** An entry as the station keeps it. It gets its line and number when it is sent. */
export interface KeptEntry extends Omit<OutboxEntry, 'wire' | 'line' | 'number'> {
  /** 1, 2, 3 … in the order of typing. */
  order: number;
  /** What the list of entries says of it. */
  shown: string;
  /** Line and number under which the desk answered it. */
  line: string | null;
  number: number | null;
  outcome: Outcome;
}

/** The line of the outbox and the number that the desk answered last. */
export interface LinePlace {
  id: string;
  last: number;
}

/** Where entries are kept. */
export interface OutboxStore {
  line(): Promise<LinePlace>;
  /** The entry to send next (`nextOf`). */
  head(): Promise<KeptEntry | undefined>;
  /** Entries of a line that were answered under this number or a later one. */
  answeredFrom(line: string, number: number): Promise<KeptEntry[]>;
  /** Writes entries and line together, or nothing. */
  settle(entries: readonly KeptEntry[], line: LinePlace): Promise<void>;
}

/**
 * The oldest entry that waits. One that says `{ made }` of what waits for a person stays behind that, and others go on.
 * @param waiting in the order of typing
 * @param unanswered what the desk doubts or refused
 */
export function nextOf(
  waiting: readonly KeptEntry[],
  unanswered: readonly KeptEntry[],
): KeptEntry | undefined {
  const held = new Set(unanswered.flatMap(({ makes }) => makes ?? []));
  return waiting.find(({ input }) => namesIn(input).every((name) => !held.has(name)));
}

/** The names of what earlier entries make, in an input. */
export function namesIn(input: unknown): string[] {
  if (typeof input !== 'object' || input === null) return [];
  return Object.entries(input).flatMap(([key, value]) =>
    key === 'made' && typeof value === 'string' ? [value] : namesIn(value),
  );
}

/** Problems of one entry alone: it can never be sent, and the line goes on without it. */
const OF_ENTRY: ReadonlySet<string> = new Set(['entry.unreadable', 'entry.too-large']);

/**
 * Sends what waits. An entry's number is always the one after the last answer, and both are written together, so that
 * a station that ends in between sends the same entry under the same number again.
 * @param post sends one entry; rejects when there is no answer, after which nothing changed here
 * @param newLine makes the id of a new line
 * @returns null once nothing waits, else the problem for which the desk takes nothing now
 */
export async function sendOutbox(
  store: OutboxStore,
  post: (entry: OutboxEntry) => Promise<Taken>,
  newLine: () => string,
): Promise<Problem | null> {
  let before = '';
  for (;;) {
    const entry = await store.head();
    if (!entry) return null;
    const line = await store.line();
    const number = line.last + 1;
    const taken = await post(wired(entry, line.id, number));
    if (taken.taken) {
      await store.settle([answered(entry, line.id, taken)], { ...line, last: number });
      continue;
    }
    // The desk's same answer to the same entry once more: no step of ours will change it.
    const now = JSON.stringify([entry.id, line, taken]);
    if (now === before || !(await follow(store, entry, line, taken, newLine))) return taken.problem;
    before = now;
  }
}

/** @returns whether it is worth sending again */
async function follow(
  store: OutboxStore,
  entry: KeptEntry,
  line: LinePlace,
  { expected, problem }: Extract<Taken, { taken: false }>,
  newLine: () => string,
): Promise<boolean> {
  if (OF_ENTRY.has(problem.code)) {
    await store.settle([{ ...entry, outcome: { state: 'refused', problem } }], line);
    return true;
  }
  if (problem.code === 'entry.other-line') {
    await store.settle([], { id: newLine(), last: 0 });
    return true;
  }
  if (expected === null) return false;
  const goesOn = { ...line, last: expected - 1 };
  if (problem.code === 'entry.twice') {
    // It stands under another number, of this line or of one before.
    await store.settle([{ ...entry, outcome: { state: 'saved', answer: {} } }], goesOn);
    return true;
  }
  // The desk's book is older than what it answered: what it no longer has is sent again.
  const again = problem.code === 'entry.gap' ? await store.answeredFrom(line.id, expected) : [];
  await store.settle(again.map(lacking), goesOn);
  return true;
}

/**
 * An answered entry that the desk's book does not have: it waits again. No lineage fits it, because ids in it may mean other
 * records now: the shop is asked first. What a person decided of a doubt stays decided.
 */
export function lacking(entry: KeptEntry): KeptEntry {
  const unsent = { ...entry, line: null, number: null };
  return entry.outcome.state === 'saved' ? { ...unsent, lineage: '', outcome: { state: 'waiting' } } : unsent;
}

function wired(entry: KeptEntry, line: string, number: number): OutboxEntry {
  const { id, lineage, name, input, at, aheadMs, person, said, makes } = entry;
  return { wire: WIRE, line, number, id, lineage, name, input, at, aheadMs, person, said, makes };
}

function answered(
  entry: KeptEntry,
  line: string,
  { number, answer }: { number: number; answer: Answer<Record<string, number>> },
): KeptEntry {
  return { ...entry, line, number, outcome: outcomeOf(answer) };
}

/** A conflict is a question to whoever typed it; any other problem is a refusal. */
function outcomeOf(answer: Answer<Record<string, number>>): Outcome {
  if (answer.ok) return { state: 'saved', answer: answer.value };
  const { problem } = answer;
  return { state: problem.kind === 'conflict' ? 'asks' : 'refused', problem };
}
