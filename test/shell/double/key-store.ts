/** The system's key store: seals by turning the bits over, for one account on one computer. */
import { strict } from './strict.ts';

type Backend = 'basic_text' | 'gnome_libsecret';

export function keyStoreDouble(isReady: () => boolean) {
  const record = {
    there: true,
    backend: 'gnome_libsecret' as Backend,
    /** Another number is another computer. */
    computer: 1,
    /** Texts that were sealed. */
    sealed: [] as string[],
  };
  const turned = (bytes: Buffer): Buffer => Buffer.from(bytes.map((byte) => byte ^ 0xff));
  const refuseEarly = (): void => {
    if (!isReady()) throw new Error('safeStorage cannot be used before app is ready');
  };
  const safeStorage = strict('safeStorage', {
    async isAsyncEncryptionAvailable() {
      refuseEarly();
      return record.there;
    },
    // Only Linux has it.
    ...(process.platform === 'linux' && { getSelectedStorageBackend: () => record.backend }),
    async encryptStringAsync(plain: string) {
      refuseEarly();
      record.sealed.push(plain);
      return Buffer.concat([Buffer.from([record.computer]), turned(Buffer.from(plain))]);
    },
    async decryptStringAsync(sealed: Buffer) {
      refuseEarly();
      if (sealed[0] !== record.computer)
        throw new Error('Error while decrypting the ciphertext provided to safeStorage.decryptString.');
      return { shouldReEncrypt: false, result: turned(sealed.subarray(1)).toString() };
    },
  });
  return { safeStorage, record };
}
