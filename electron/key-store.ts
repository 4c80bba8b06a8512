/** The system's key store, as Electron reaches it from the shell alone. */
import { safeStorage } from 'electron';
import { logError } from './log.ts';

/** Seals or opens a text (as base64); null where there is no key store, or where it refuses. */
export async function askKeyStore(work: 'seal' | 'unseal', text: string): Promise<string | null> {
  try {
    if (!(await hasKeyStore())) return null;
    if (work === 'seal') return (await safeStorage.encryptStringAsync(text)).toString('base64');
    return (await safeStorage.decryptStringAsync(Buffer.from(text, 'base64'))).result;
  } catch (error) {
    logError(`not-${work}ed`, error);
    return null;
  }
}

/**
 * On a Linux desktop without a wallet Chromium encrypts with a key that stands in its source (`basic_text`): that would look safer
 * than a file for this account only, and protect nothing.
 */
async function hasKeyStore(): Promise<boolean> {
  if (!(await safeStorage.isAsyncEncryptionAvailable())) return false;
  return process.platform !== 'linux' || safeStorage.getSelectedStorageBackend() !== 'basic_text';
}
