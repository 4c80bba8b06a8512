/** The outbox of a station, by call. Pure. */
import { namesIn, type KeptEntry, type Outcome } from '../../../bridge/client/station/outbox.ts';
import type { CallInput } from '../../../bridge/contract.ts';
import type { EntryName } from '../line.ts';

export interface WaitingEntry<N extends EntryName> {
  id: string;
  input: CallInput<N>;
  /** The station's moment when it was typed. */
  at: string;
}

/** The entries of one call that the desk has not answered yet, oldest first. */
export function waitingOf<N extends EntryName>(entries: readonly KeptEntry[], name: N): WaitingEntry<N>[] {
  return entries
    .filter((entry) => entry.name === name && entry.outcome.state === 'waiting')
    .map(({ id, input, at }) => ({ id, input: input as CallInput<N>, at }));
}

/** What became of an entry, or of the one that replaced it after a question; undefined for an unknown id. */
export function outcomeOf(entries: readonly KeptEntry[], id: string): Outcome | undefined {
  const outcome = entries.find((entry) => entry.id === id)?.outcome;
  return outcome?.state === 'replaced' ? outcomeOf(entries, outcome.by) : outcome;
}

/** The weights on their way of an animal that the station itself took in, under its own name of it. */
export function weightsOf(entries: readonly KeptEntry[], made: string): WaitingEntry<'table.weigh'>[] {
  return waitingOf(entries, 'table.weigh').filter(({ input }) => namesIn(input).includes(made));
}
