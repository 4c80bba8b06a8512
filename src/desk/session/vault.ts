/** The key store of the system, which opens a text only for this account on this computer. */
export interface Vault {
  /** The text as it may lie in a file; null where this system has no key store. */
  seal(plain: string): Promise<string | null>;
  /** What was sealed; null when the key store cannot open it, as on another computer. */
  unseal(sealed: string): Promise<string | null>;
}
