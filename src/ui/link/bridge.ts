import { createEventHook } from '@vueuse/core';
import { connect } from '../../bridge/client/index.ts';
import { opensABook } from '../../bridge/client/opens-a-book.ts';
import { OTHER_OPENING } from '../../bridge/client/other-opening.ts';
import type {
  Answer,
  AskName,
  Bridge,
  CallInput,
  CallName,
  CallOutput,
  Stale,
} from '../../bridge/contract.ts';
import { useOpening } from './opening.ts';
import { trackSlow } from './slow-calls.ts';

let bridge: Bridge | null = null;
/** Calls of this window on their way that open a book. */
let opening = 0;
/** Told when the desk turns out to work in another opening than this window shows; `ours`: this window asked for it. */
const otherBook = createEventHook<boolean>();

/** Opens the way to the desk. Called once, before the router starts: it takes the code out of the address. */
export async function openBridge(): Promise<void> {
  bridge = await connect();
  bridge.on('changed', ({ opening: now }) => {
    if (now !== undefined && now !== useOpening().shown) notifyOtherBook();
  });
}

/** Asks the desk about the book that this window shows. Never rejects: a desk that cannot be reached answers with a problem. */
export function call<N extends AskName>(name: N, input: CallInput<N>): Promise<Answer<CallOutput<N>>> {
  return callFor(useOpening().shown, name, input);
}

/** A call meant for one opening of a book; the desk refuses it once another is open. */
export async function callFor<N extends CallName>(
  meant: string | null,
  name: N,
  input: CallInput<N>,
): Promise<Answer<CallOutput<N>>> {
  const opens = opensABook(name) ? 1 : 0;
  opening += opens;
  const answer = await trackSlow(opened().call(name, input, meant));
  opening -= opens;
  const refused = !answer.ok && answer.problem.code === OTHER_OPENING.problem.code;
  if (refused && meant === useOpening().shown) notifyOtherBook();
  return answer;
}

/**
 * Runs `listener` whenever a change of the book shown here may have altered the answer to one of these questions; returns
 * what stops it.
 * @param animal the one animal that is asked about, if there is one and it is known
 */
export function onStale(
  names: readonly AskName[],
  animal: () => number | undefined,
  listener: () => void,
): () => void {
  return opened().on('changed', ({ opening: now, stale }) => {
    if (now !== undefined && now !== useOpening().shown) return;
    if (stale === null || names.some((name) => isStale(stale, name, animal()))) listener();
  });
}

function isStale({ asks, ofAnimals }: Stale, name: AskName, animal: number | undefined): boolean {
  if (asks.includes(name)) return true;
  return ofAnimals.asks.includes(name) && (animal === undefined || ofAnimals.ids.includes(animal));
}

/** Runs `listener` when another book than the one shown here turns out to be open. */
export function onOtherBook(listener: (ours: boolean) => void): void {
  otherBook.on(listener);
}

function notifyOtherBook(): void {
  void otherBook.trigger(opening > 0);
}

function opened(): Bridge {
  if (!bridge) throw new Error('openBridge() comes first');
  return bridge;
}
