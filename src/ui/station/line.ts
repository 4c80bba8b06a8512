/**
 * A station's line to the desk, as the screens of its place use it.
 *
 * Questions: `useLive('animals.get', () => ({ animalId }))` and `call` work as in the shop's own window, and answer with what was
 * last seen while the desk is away (`station.away` if nothing was). Entries: `await line.save('table.weigh', input, shown)`.
 */
import { defineStore } from 'pinia';
import { computed, shallowRef } from 'vue';
import { plainCopy } from '../../bridge/client/plain.ts';
import type { KeptEntry } from '../../bridge/client/station/outbox.ts';
import { decided } from '../../bridge/client/station/compare.ts';
import type { AskName, CallInput, CallName, HeldDecision, Made, Problem } from '../../bridge/contract.ts';
import { useShop } from '../stores/shop.ts';
import { addEntry, allEntries, putEntries } from './kept/entries.ts';
import type { Pairing } from './kept/pairing.ts';
import type { Shut, StationRequests } from '../../bridge/client/station/requests.ts';

/** Calls that write, and so may wait in the outbox. */
export type EntryName = Exclude<CallName, AskName>;

/** An input in which the station's own name of something may stand for its id. */
export type Naming<T> = { [K in keyof T]: number extends T[K] ? T[K] | Made : T[K] };

export type Connection =
  | { state: 'connected' }
  /** @property since moment of the last answer; null if there was none since the page opened */
  | { state: 'away'; since: number | null }
  | { state: 'shut'; why: Shut };

export interface Person {
  initials: string;
  /** Of the desk, while somebody is signed in with a PIN; null where people only say their initials. */
  token: string | null;
}

export const useLine = defineStore('line', () => {
  const shop = useShop();
  const pairing = shallowRef<Pairing | null>(null);
  const connection = shallowRef<Connection>({ state: 'away', since: null });
  /** Every entry that this station keeps, oldest first. */
  const entries = shallowRef<readonly KeptEntry[]>([]);
  /** Why the desk takes no entries now though it answers; null if it does. */
  const stuck = shallowRef<Problem | null>(null);
  /** The last entry could not be kept on this device. */
  const storeFailed = shallowRef(false);
  const signedIn = shallowRef<Person | null>(null);
  /** Screens that hold a half-typed entry: a new version waits for them. */
  const open = shallowRef<ReadonlySet<symbol>>(new Set());
  /** Sends to the desk, as the program of the station does. */
  const requests = shallowRef<StationRequests | null>(null);
  let program = { send: (): void => undefined, hurry: (): void => undefined };

  const station = computed(() => pairing.value?.station ?? null);
  const place = computed(() => station.value?.place ?? null);
  const name = computed(() => station.value?.name ?? '');
  /** Who works here; null until somebody said so. */
  const person = computed<Person | null>(() => {
    if (pairing.value?.signIn) return signedIn.value;
    return shop.by ? { initials: shop.by, token: null } : null;
  });
  const of = (...states: KeptEntry['outcome']['state'][]) =>
    entries.value.filter(({ outcome }) => states.includes(outcome.state));
  /** Not saved in the book yet. */
  const waiting = computed(() => of('waiting'));
  /** What the desk doubts or refused, and nobody answered yet. */
  const unanswered = computed(() => of('asks', 'refused'));
  /** Made in a book that the desk's does not continue: the shop decides of them. */
  const ofOtherBook = computed(() =>
    waiting.value.filter(({ lineage }) => lineage !== pairing.value?.lineage),
  );
  /** What the desk is told of it (`HELD_HEADER`). @param sent entries that are on their way just now */
  const held = (sent = 0): string =>
    [waiting.value.length - sent, unanswered.value.length, ofOtherBook.value.length, of('left').length].join(
      ' ',
    );
  /** Whatever was typed and is neither in the book nor let go. */
  const unsaved = computed(() => of('waiting', 'asks', 'refused'));

  async function load(): Promise<void> {
    entries.value = await allEntries();
  }

  /** Shows entries as they are now in the store. */
  function note(changed: readonly KeptEntry[]): void {
    const by = new Map(changed.map((entry) => [entry.order, entry]));
    entries.value = entries.value.map((entry) => by.get(entry.order) ?? entry);
  }

  /**
   * Puts an entry into the outbox, with the initials of whoever works here. It is sent by itself, in order, exactly once.
   * @param input may say `{ made }` for the id of what an earlier entry makes, whether that is in the book yet or not
   * @param shown what the list of entries says of it, in the station's language: `26-0147 · Hanging weight · 84.6 lb`
   * @param makes the station's own name for what it makes, a UUID
   * @returns the entry's id, once it stands on this device
   * @throws Error if the device cannot keep it: what was typed has to stay on the screen
   */
  async function save<N extends EntryName>(
    call: N,
    input: Naming<CallInput<N>>,
    shown: string,
    makes?: string,
  ): Promise<string> {
    const { id, ...rest } = made(call, input, shown);
    try {
      await addEntry({ id, ...rest, ...(makes !== undefined && { makes }) });
      storeFailed.value = false;
    } catch (error) {
      storeFailed.value = true;
      throw error;
    }
    await load();
    program.send();
    return id;
  }

  function made(call: CallName, input: unknown, shown: string): Omit<KeptEntry, 'order'> {
    const by = person.value;
    const copy = plainCopy(by ? { ...(input as object), by: by.initials } : input);
    if (!copy.ok) throw new Error(copy.problem.code);
    return {
      id: crypto.randomUUID(),
      lineage: pairing.value?.lineage ?? '',
      name: call,
      input: JSON.parse(copy.json) as unknown,
      at: new Date().toISOString(),
      aheadMs: pairing.value?.aheadMs ?? 0,
      ...(by?.token && { person: by.token }),
      ...(by && { said: by.initials }),
      shown,
      line: null,
      number: null,
      outcome: { state: 'waiting' },
    };
  }

  const entry = (id: string): KeptEntry | undefined => entries.value.find((one) => one.id === id);

  function unansweredEntry(id: string): KeptEntry & { outcome: { problem: Problem } } {
    const found = entry(id);
    if (!found || !('problem' in found.outcome)) throw new Error(`Entry ${id} waits for no answer.`);
    return found as KeptEntry & { outcome: { problem: Problem } };
  }

  /** Answers the desk's doubt by another input, with what was confirmed or corrected. @returns the new entry's id */
  async function saveAgain<N extends EntryName>(
    id: string,
    input: Naming<CallInput<N>>,
    shown?: string,
  ): Promise<string> {
    const former = unansweredEntry(id);
    const by = await save(former.name as N, input, shown ?? former.shown, former.makes);
    const { problem } = former.outcome;
    await settle({ ...former, outcome: { state: 'replaced', problem, by } });
    return by;
  }

  /** Says of what the desk doubts or refused that it need not be saved. It stays in the list of entries. */
  function drop(id: string): Promise<void> {
    const former = unansweredEntry(id);
    return settle({ ...former, outcome: { state: 'dropped', problem: former.outcome.problem } });
  }

  async function settle(changed: KeptEntry): Promise<void> {
    await putEntries([changed]);
    note([changed]);
  }

  /** Takes entries of another book, such as one before a backup was restored, into the book as it is now, or leaves them out. */
  async function decide(decision: HeldDecision): Promise<void> {
    const moved = decided(entries.value, decision, pairing.value?.lineage ?? '');
    await putEntries(moved);
    note(moved);
    stuck.value = null;
    program.send();
  }

  /** For the program of the station, which sends the outbox whenever something was put into it. */
  function follow(by: typeof program & { requests: StationRequests }): void {
    program = by;
    requests.value = by.requests;
  }

  /** Looks for the desk at once. */
  const hurry = (): void => program.hurry();

  return {
    pairing, connection, entries, stuck, storeFailed, signedIn, open, station, place, name, person, waiting, unanswered, unsaved,
    load, note, save, entry, saveAgain, drop, decide, held, ofOtherBook, follow, hurry, requests,
  }; // prettier-ignore
});
