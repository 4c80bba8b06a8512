/** The authority of a shop, from the file beside its book or made anew. */
import { X509Certificate } from 'node:crypto';
import { makeAuthority, makeLeaf, type Leaf, type LeafNames } from './certificates.ts';
import { fingerprintsOf, type Fingerprints } from './fingerprint.ts';
import { keptPath, placeOf, readKept, writeKept, type Kept } from './kept.ts';
import { isDue, isEnding } from './renewal.ts';

export interface OpenAuthority {
  /** The root as DER, for devices to trust. */
  root: Uint8Array;
  fingerprints: Fingerprints;
  /** Whether it was made just now, so that no device trusts it yet. */
  isNew: boolean;
  /**
   * The key, and the chain to show: leaf and signer. The leaf is made anew when it is due, or when the desk's name or
   * addresses changed.
   */
  leafFor(names: LeafNames, now: Date): Promise<{ key: string; cert: string }>;
}

/**
 * Opens the authority beside a book. A missing, moved or ending one is made anew, and its leaf with it.
 * @param bookPath an existing book
 * @param shop the name by which people recognize the root on their devices
 * @throws ProblemError `line.keys-damaged`
 */
export async function openAuthority(bookPath: string, shop: string, now: Date): Promise<OpenAuthority> {
  const path = keptPath(bookPath);
  const place = placeOf(bookPath);
  const found = readKept(path);
  const usable = found && found.place === place && !isEnding(found.authority.signer, now) ? found : null;
  const authority = usable?.authority ?? (await makeAuthority(shop, now));
  let kept: Kept | null = usable;

  async function renewed(names: LeafNames, at: Date): Promise<Leaf> {
    const leaf = await makeLeaf(authority, names, at);
    const { host, addresses } = names;
    kept = { version: 1, place, authority, leaf, names: { host, addresses: [...addresses] } };
    writeKept(path, kept);
    return leaf;
  }

  return {
    root: new X509Certificate(authority.root).raw,
    fingerprints: fingerprintsOf(authority.root),
    isNew: usable === null,
    async leafFor(names, at) {
      const isCurrent = kept && same(kept.names, names) && !isDue(kept.leaf.certificate, at);
      const leaf = kept && isCurrent ? kept.leaf : await renewed(names, at);
      return { key: leaf.key, cert: `${leaf.certificate}\n${authority.signer}` };
    },
  };
}

function same(one: LeafNames, other: LeafNames): boolean {
  return one.host === other.host && one.addresses.toSorted().join() === other.addresses.toSorted().join();
}
