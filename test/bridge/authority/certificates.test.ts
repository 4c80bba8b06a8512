/** What a device accepts of a shop's authority, as OpenSSL judges it. */
import { createHash, createPublicKey, X509Certificate } from 'node:crypto';
import { isIP } from 'node:net';
import { beforeAll, describe, expect, it } from 'vitest';
import { makeAuthority, makeLeaf, type Authority } from '../../../src/bridge/authority/certificates.ts';
import { isLocalAddress, isLocalName } from '../../../src/bridge/authority/constraints.ts';
import { fingerprintsOf } from '../../../src/bridge/authority/fingerprint.ts';
import { filesOf, hasOpenssl, openssl, shakeHands } from './openssl.ts';

const DAY = 86_400_000;
const SERVER_AUTH = '1.3.6.1.5.5.7.3.1';
const now = new Date();
let authority: Authority;
beforeAll(async () => {
  authority = await makeAuthority('Oak Ridge', now);
});

async function shown(host: string, addresses: string[] = []) {
  const { key, certificate } = await makeLeaf(authority, { host, addresses }, now);
  return { key, cert: `${certificate}\n${authority.signer}`, root: authority.root, certificate };
}

describe('a leaf of the shop', () => {
  it.each([
    'desk.local', 'desk.home.arpa', 'desk.internal', 'desk.lan', '10.0.0.1', '10.255.255.255', '172.16.0.1', '172.31.255.254',
    '192.168.77.1', '100.64.0.1', '100.127.255.254', '169.254.1.1', '127.0.0.2', 'fd00::1', 'fe80::1',
  ])('is trusted for %s', async (name) => {
    const isName = isIP(name) === 0;
    expect(isLocalName(name) || isLocalAddress(name)).toBe(true);
    const leaf = isName ? await shown(name) : await shown('desk.local', [name]);
    expect(await shakeHands(leaf, name)).toBe('trusted');
  }); // prettier-ignore

  it.each([
    'bank.example', 'local.example', 'notlocal', 'arpa', '8.8.8.8', '11.0.0.1', '172.15.255.255', '172.32.0.0', '192.167.1.1',
    '192.169.0.0', '100.63.255.255', '100.128.0.0', '128.0.0.1', '2001:db8::1', 'fec0::1', 'fbff::1',
  ])('is refused for %s by the constraints of the signer', async (name) => {
    const isName = isIP(name) === 0;
    expect(isLocalName(name) || isLocalAddress(name)).toBe(false);
    const leaf = isName ? await shown(name) : await shown('desk.local', [name]);
    expect(await shakeHands(leaf, name)).toContain('permitted subtree violation');
  }); // prettier-ignore

  it('is refused under another name than its own', async () => {
    expect(await shakeHands(await shown('desk.local'), 'other.local')).toContain(
      'ERR_TLS_CERT_ALTNAME_INVALID',
    );
  });

  it('is refused by a device that trusts another shop', async () => {
    const leaf = { ...(await shown('desk.local')), root: (await makeAuthority('Elsewhere', now)).root };
    expect(await shakeHands(leaf, 'desk.local')).toMatch(/UNABLE_TO_GET_ISSUER_CERT|SELF_SIGNED_CERT/);
  });

  it('lasts 397 days from a day back, for a server, with a key on P-256', async () => {
    const leaf = new X509Certificate((await shown('desk.local', ['192.168.77.1', 'fd00::1'])).certificate);
    const start = leaf.validFromDate.getTime();
    expect(leaf.validToDate.getTime() - start).toBe(397 * DAY);
    expect(now.getTime() - start - DAY).toBeGreaterThanOrEqual(0);
    expect(now.getTime() - start - DAY).toBeLessThan(1000);
    expect(leaf.keyUsage).toEqual([SERVER_AUTH]); // Node names the extended usage so
    expect(leaf.ca).toBe(false);
    expect(leaf.publicKey.asymmetricKeyDetails).toEqual({ namedCurve: 'prime256v1' });
    expect(leaf.checkIP('fd00::1')).toBeDefined();
  });

  it('ends with its signer at the latest', async () => {
    const late = new Date(now.getTime() + 3_600 * DAY);
    const { certificate } = await makeLeaf(authority, { host: 'desk.local', addresses: [] }, late);
    const end = new X509Certificate(authority.signer).validTo;
    expect(new X509Certificate(certificate).validTo).toBe(end);
  });

  it('has a number of its own', async () => {
    const numbers = await Promise.all([shown('a.local'), shown('a.local')]);
    const [one, other] = numbers.map(({ certificate }) => new X509Certificate(certificate).serialNumber);
    expect(one).toMatch(/^[4-7][\dA-F]{31}$/);
    expect(one).not.toBe(other);
  });
});

describe('the authority', () => {
  it('keeps the key of the signer and none of the root', () => {
    const kept = createPublicKey(authority.signerKey).export({ type: 'spki', format: 'pem' });
    const { publicKey } = new X509Certificate(authority.signer);
    expect(kept).toBe(publicKey.export({ type: 'spki', format: 'pem' }));
    expect(JSON.stringify(authority).match(/PRIVATE KEY-----/g)).toHaveLength(2); // one begin, one end
  });

  it.each(['Ann’s "Deer" Shop', '#0500', 'CN=bank.example, O=Bank', 'long'.repeat(100), '', '🦌 <b>'])(
    'takes any name of a shop',
    async (name) => {
      const { root, signer } = await makeAuthority(name, now);
      const { subject, ca } = new X509Certificate(root);
      expect(ca).toBe(true);
      expect(subject).toMatch(/^CN=Gambrel shop [\dA-F]{4}/);
      expect(subject.length).toBeLessThanOrEqual(3 + 64);
      expect(new X509Certificate(signer).subject).toMatch(/^CN=Gambrel signer [\dA-F]{4}/);
    },
  );

  it('has the fingerprints of its bytes', () => {
    const der = new X509Certificate(authority.root).raw;
    const digest = (kind: string) =>
      (createHash(kind).update(der).digest('hex').toUpperCase().match(/../g) ?? []).join(':');
    expect(fingerprintsOf(authority.root)).toEqual({ sha256: digest('sha256'), sha1: digest('sha1') });
  });
});

describe.skipIf(!hasOpenssl)('the openssl program', () => {
  it('verifies the chain by the strict rules of RFC 5280, for a server and for nothing else', async () => {
    const { certificate } = await shown('desk.local', ['192.168.77.1']);
    const { root = '', signer = '', leaf = '' } = filesOf({ ...authority, leaf: certificate });
    const verify = (purpose: string) =>
      openssl('verify', '-x509_strict', '-purpose', purpose, '-CAfile', root, '-untrusted', signer, leaf);
    expect(verify('sslserver')).toBe(`${leaf}: OK\n`);
    for (const other of ['sslclient', 'smimesign', 'crlsign'])
      expect(verify(other)).toMatch(/unsuitable certificate purpose/);
  });

  it('reads the constraints as they are meant', () => {
    const { signer = '' } = filesOf({ signer: authority.signer });
    const text = openssl('x509', '-in', signer, '-noout', '-text');
    expect(text).toMatch(/Basic Constraints: critical\s+CA:TRUE, pathlen:0/);
    expect(text.replaceAll(/\s+/g, ' ')).toContain(
      'Name Constraints: critical Permitted: DNS:local DNS:home.arpa DNS:internal DNS:lan ' +
        'IP:10.0.0.0/255.0.0.0 IP:172.16.0.0/255.240.0.0 IP:192.168.0.0/255.255.0.0 IP:100.64.0.0/255.192.0.0 ' +
        'IP:169.254.0.0/255.255.0.0 IP:127.0.0.0/255.0.0.0 IP:FC00:0:0:0:0:0:0:0/FE00:0:0:0:0:0:0:0 ' +
        'IP:FE80:0:0:0:0:0:0:0/FFC0:0:0:0:0:0:0:0',
    );
  });
});
