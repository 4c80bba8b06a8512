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
import type { Language } from '../../words/languages.ts';
import { currentLanguage } from '../../words/speech.ts';
import { useOpening } from './opening.ts';
import { trackSlow } from './slow-calls.ts';

let bridge: Bridge | null = null;
/** Pending calls of this window that open a book. */
let opening = 0;
/** What this window showed when it opened another book, which it has yet to load; undefined for none. */
let left: string | null | undefined;
/** Emitted when the desk turns out to have another opening than this window shows; `ours`: this window requested it. */
const otherBook = createEventHook<boolean>();

/**
 * Connects to the desk. Called once, before the router starts, because it removes the code from the address.
 * @param connecting another carrier: that of a station
 */
export async function openBridge(connecting = connect()): Promise<void> {
  bridge = await connecting;
  bridge.on('changed', ({ opening: now }) => {
    if (now !== undefined && now !== useOpening().shown) notifyOtherBook();
  });
}

/**
 * Calls the desk for the book that this window shows. Never rejects: an unreachable desk is a problem in the
 * answer.
 * @param language in which built-in things are named, if not that of the window
 */
export function call<N extends AskName>(
  name: N,
  input: CallInput<N>,
  language?: Language,
): Promise<Answer<CallOutput<N>>> {
  return callFor(useOpening().shown, name, input, language);
}

/** A call meant for one opening of a book; the desk refuses it once another is open. */
export async function callFor<N extends CallName>(
  target: string | null,
  name: N,
  input: CallInput<N>,
  language = currentLanguage(),
): Promise<Answer<CallOutput<N>>> {
  const opens = opensABook(name) ? 1 : 0;
  const before = useOpening().shown;
  opening += opens;
  const answer = await trackSlow(opened().call(name, input, target, language));
  opening -= opens;
  // The news of the other opening may come after the answer.
  if (opens && answer.ok) left = before;
  const refused = !answer.ok && answer.problem.code === OTHER_OPENING.problem.code;
  if (refused && target === useOpening().shown) notifyOtherBook();
  return answer;
}

/**
 * Runs `listener` when a change of the book may have affected the answer to one of these queries; returns a
 * function that unsubscribes.
 * @param animal the one animal that is queried, if known
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

/** Runs `listener` when another book than the one shown turns out to be open. */
export function onOtherBook(listener: (ours: boolean) => void): void {
  otherBook.on(listener);
}

function notifyOtherBook(): void {
  void otherBook.trigger(opening > 0 || left === useOpening().shown);
}

function opened(): Bridge {
  if (!bridge) throw new Error('openBridge() comes first');
  return bridge;
}
