/** The desk's way to the system's key store, which only the shell reaches: by messages. */
import type { Vault } from '../src/desk/session/vault.ts';
import type { FromDesk } from './desk-messages.ts';

type Answered = (text: string | null) => void;

/** @returns the key store, and what takes the shell's answers */
export function vaultByMessage(post: (message: FromDesk) => void): {
  vault: Vault;
  answer(id: number, text: string | null): void;
} {
  const waiting = new Map<number, Answered>();
  let last = 0;
  const ask = (work: 'seal' | 'unseal', text: string): Promise<string | null> =>
    new Promise((resolve) => {
      waiting.set((last += 1), resolve);
      post({ kind: 'key store', id: last, work, text });
    });
  return {
    vault: { seal: (plain) => ask('seal', plain), unseal: (sealed) => ask('unseal', sealed) },
    answer(id, text) {
      waiting.get(id)?.(text);
      waiting.delete(id);
    },
  };
}
