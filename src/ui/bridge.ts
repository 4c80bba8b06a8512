import { createEventHook } from '@vueuse/core';
import { connect } from '../bridge/client/index.ts';
import { opensABook } from '../bridge/client/opens-a-book.ts';
import { OTHER_OPENING } from '../bridge/client/other-opening.ts';
import type { Answer, AskName, Bridge, CallInput, CallName, CallOutput } from '../bridge/contract.ts';
import { useOpening } from './opening.ts';
import { tellWhenSlow } from './use/waiting.ts';

let bridge: Bridge | null = null;
/** Calls of this window on their way that open a book. */
let opening = 0;
/** Told when the desk turns out to work in another opening than this window shows; `ours`: this window asked for it. */
const otherBook = createEventHook<boolean>();

/** Opens the way to the desk. Called once, before the router starts: it takes the code out of the address. */
export async function openBridge(): Promise<void> {
  bridge = await connect();
  bridge.on('changed', ({ opening: now }) => {
    if (now !== undefined && now !== useOpening().shown) tellOtherBook();
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
  const answer = await tellWhenSlow(opened().call(name, input, meant));
  opening -= opens;
  const refused = !answer.ok && answer.problem.code === OTHER_OPENING.problem.code;
  if (refused && meant === useOpening().shown) tellOtherBook();
  return answer;
}

/** Runs `listener` with the name of the call that wrote, whenever the book shown here changed; returns what stops it. */
export function onChanged(listener: (call: string) => void): () => void {
  return opened().on('changed', ({ call: name, opening: now }) => {
    if (now === undefined || now === useOpening().shown) listener(String(name));
  });
}

/** Runs `listener` when another book than the one shown here turns out to be open. */
export function onOtherBook(listener: (ours: boolean) => void): void {
  otherBook.on(listener);
}

function tellOtherBook(): void {
  void otherBook.trigger(opening > 0);
}

function opened(): Bridge {
  if (!bridge) throw new Error('openBridge() comes first');
  return bridge;
}
