import { X509Certificate } from 'node:crypto';

/** Fingerprints of a certificate, as devices show them: tablets, phones and Macs SHA-256, Windows SHA-1. */
export interface Fingerprints {
  sha256: string;
  sha1: string;
}

/**
 * What a person compares before trusting the shop's root.
 * @param certificate PEM or DER
 * @returns pairs of hexadecimal digits with colons, as `openssl x509 -fingerprint` prints them
 */
export function fingerprintsOf(certificate: string | Uint8Array): Fingerprints {
  const { fingerprint256, fingerprint } = new X509Certificate(certificate);
  return { sha256: fingerprint256, sha1: fingerprint };
}
