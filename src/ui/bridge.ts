import { connect } from '../bridge/client/index.ts';
import type { Answer, Bridge, CallInput, CallName, CallOutput } from '../bridge/contract.ts';
import { tellWhenSlow } from './use/waiting.ts';

let bridge: Bridge | null = null;

/** Opens the way to the desk. Called once, before the router starts: it takes the key out of the address. */
export async function openBridge(): Promise<void> {
  bridge = await connect();
}

/** Calls the desk. Never rejects: a desk that cannot be reached answers with a problem like any other. */
export function call<N extends CallName>(name: N, input: CallInput<N>): Promise<Answer<CallOutput<N>>> {
  return tellWhenSlow(opened().call(name, input));
}

/** Runs `listener` with the name of the call that wrote, whenever the book changed; returns what stops it. */
export function onChanged(listener: (call: string) => void): () => void {
  return opened().on('changed', (changed) => listener(String(changed.call)));
}

function opened(): Bridge {
  if (!bridge) throw new Error('openBridge() comes first');
  return bridge;
}
