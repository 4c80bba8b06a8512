/** Makes the certificates of a shop: root, signer and leaf, all P-256. */
import { randomBytes } from 'node:crypto';
import { nameConstraints } from './constraints.ts';
import { x509 } from './library.ts';

const DAY = 86_400_000;
/** Life of root and signer: after it every station trusts anew. */
const AUTHORITY_DAYS = 3_652;
/** Apple refuses a leaf of more than 825 days (support.apple.com/103769); 397 is what public ones have. */
const LEAF_DAYS = 397;
const SERVER_AUTH = '1.3.6.1.5.5.7.3.1';
const NAME_CONSTRAINTS = '2.5.29.30';
const P256 = { name: 'ECDSA', namedCurve: 'P-256' } as const;
/** Longest common name in characters (RFC 5280, ub-common-name). */
const MAX_NAME = 64;

/** Certificates and a private key as PEM. */
export interface Authority {
  root: string;
  signer: string;
  signerKey: string;
}

/** What a desk serves as: its name and addresses. */
export interface LeafNames {
  host: string;
  addresses: readonly string[];
}

/** The certificate that a desk shows, with its key, as PEM. */
export interface Leaf {
  certificate: string;
  key: string;
}

/**
 * Makes a root and a signer. The root's key cannot be exported and is dropped on return: nothing but this signer can
 * ever be made with it. The signer carries the constraints because Apple's systems do not look at those of a root.
 */
export async function makeAuthority(shop: string, now: Date): Promise<Authority> {
  const { X509CertificateGenerator, KeyUsageFlags, ...kinds } = await x509();
  const mark = randomBytes(2).toString('hex').toUpperCase();
  // iOS lists only roots that have a common name. The package reads signs such as quotes in a name as syntax.
  const plain = shop.replaceAll(/[^\p{L}\p{N} .&'’-]/gu, '');
  const named = (role: string) => [{ CN: [`Gambrel ${role} ${mark} ${plain}`.trim().slice(0, MAX_NAME)] }];
  const valid = validity(now, AUTHORITY_DAYS);
  const rootKeys = await crypto.subtle.generateKey(P256, false, ['sign', 'verify']);
  const signerKeys = await crypto.subtle.generateKey(P256, true, ['sign', 'verify']);
  const certifies = new kinds.KeyUsagesExtension(KeyUsageFlags.keyCertSign | KeyUsageFlags.cRLSign, true);
  const root = await X509CertificateGenerator.createSelfSigned({
    name: named('shop'),
    keys: rootKeys,
    serialNumber: serial(),
    ...valid,
    extensions: [
      new kinds.BasicConstraintsExtension(true, 1, true),
      certifies,
      await kinds.SubjectKeyIdentifierExtension.create(rootKeys.publicKey),
    ],
  });
  const signer = await X509CertificateGenerator.create({
    subject: named('signer'),
    issuer: root.subjectName,
    publicKey: signerKeys.publicKey,
    signingKey: rootKeys.privateKey,
    serialNumber: serial(),
    ...valid,
    extensions: [
      new kinds.BasicConstraintsExtension(true, 0, true),
      certifies,
      new kinds.ExtendedKeyUsageExtension([SERVER_AUTH]),
      new kinds.Extension(NAME_CONSTRAINTS, true, nameConstraints()),
      await kinds.SubjectKeyIdentifierExtension.create(signerKeys.publicKey),
      await kinds.AuthorityKeyIdentifierExtension.create(rootKeys.publicKey),
    ],
  });
  return {
    root: root.toString('pem'),
    signer: signer.toString('pem'),
    signerKey: await keyToPem(signerKeys.privateKey),
  };
}

/** Makes a leaf for the desk's name and addresses; it ends with its signer at the latest. */
export async function makeLeaf(authority: Authority, names: LeafNames, now: Date): Promise<Leaf> {
  const { X509CertificateGenerator, X509Certificate, KeyUsageFlags, ...kinds } = await x509();
  const signer = new X509Certificate(authority.signer);
  const keys = await crypto.subtle.generateKey(P256, true, ['sign', 'verify']);
  const { notBefore, notAfter } = validity(now, LEAF_DAYS);
  const leaf = await X509CertificateGenerator.create({
    subject: [{ CN: [names.host.slice(0, MAX_NAME)] }],
    issuer: signer.subjectName,
    publicKey: keys.publicKey,
    signingKey: await keyOfPem(authority.signerKey),
    serialNumber: serial(),
    notBefore,
    notAfter: notAfter < signer.notAfter ? notAfter : signer.notAfter,
    extensions: [
      new kinds.BasicConstraintsExtension(false, undefined, true),
      new kinds.KeyUsagesExtension(KeyUsageFlags.digitalSignature, true),
      new kinds.ExtendedKeyUsageExtension([SERVER_AUTH]),
      new kinds.SubjectAlternativeNameExtension([
        { type: 'dns', value: names.host },
        ...names.addresses.map((value) => ({ type: 'ip', value }) as const),
      ]),
      await kinds.SubjectKeyIdentifierExtension.create(keys.publicKey),
      await kinds.AuthorityKeyIdentifierExtension.create(await signer.publicKey.export()),
    ],
  });
  return { certificate: leaf.toString('pem'), key: await keyToPem(keys.privateKey) };
}

/** From a day back, because a tablet's clock may be slow. */
function validity(now: Date, days: number): { notBefore: Date; notAfter: Date } {
  const start = Math.floor(now.getTime() / 1000) * 1000 - DAY;
  return { notBefore: new Date(start), notAfter: new Date(start + days * DAY) };
}

/** A positive random number of 16 bytes, in hexadecimal. */
function serial(): string {
  const bytes = randomBytes(16);
  bytes[0] = 0x40 | ((bytes[0] ?? 0) & 0x3f);
  return bytes.toString('hex');
}

async function keyToPem(key: CryptoKey): Promise<string> {
  const { PemConverter } = await x509();
  return PemConverter.encode(await crypto.subtle.exportKey('pkcs8', key), PemConverter.PrivateKeyTag);
}

async function keyOfPem(pem: string): Promise<CryptoKey> {
  const { PemConverter } = await x509();
  return crypto.subtle.importKey('pkcs8', PemConverter.decodeFirst(pem), P256, false, ['sign']);
}
