/**
 * What certificates of a shop's authority may name: names and addresses of a local network, never one of the internet.
 * A device that trusts the authority therefore stays safe even if its key is stolen.
 */
import { BlockList, isIP } from 'node:net';

/**
 * Domains that no public registry gives out: `.local` (RFC 6762), `home.arpa` (RFC 8375), `internal` (ICANN, 2024-07-29),
 * and `lan`, which many routers use. They cannot be changed later without trusting anew.
 */
const DOMAINS = ['local', 'home.arpa', 'internal', 'lan'];

/** Address ranges of local networks. `head` is what stands before the zeros. */
const RANGES: readonly { subnet: string; head: readonly number[]; bits: number; family: 'ipv4' | 'ipv6' }[] =
  [
    { subnet: '10.0.0.0', head: [10], bits: 8, family: 'ipv4' }, // RFC 1918
    { subnet: '172.16.0.0', head: [172, 16], bits: 12, family: 'ipv4' }, // RFC 1918
    { subnet: '192.168.0.0', head: [192, 168], bits: 16, family: 'ipv4' }, // RFC 1918
    { subnet: '100.64.0.0', head: [100, 64], bits: 10, family: 'ipv4' }, // RFC 6598, shared by providers
    { subnet: '169.254.0.0', head: [169, 254], bits: 16, family: 'ipv4' }, // RFC 3927, a cable without a router
    { subnet: '127.0.0.0', head: [127], bits: 8, family: 'ipv4' }, // this computer: of no use to anybody else
    { subnet: 'fc00::', head: [0xfc], bits: 7, family: 'ipv6' }, // RFC 4193
    { subnet: 'fe80::', head: [0xfe, 0x80], bits: 10, family: 'ipv6' }, // RFC 4291, link-local
  ];

const local = new BlockList();
for (const { subnet, bits, family } of RANGES) local.addSubnet(subnet, bits, family);

/** Whether a certificate may name this address. Example: `isLocalAddress('8.8.8.8')` is false. */
export function isLocalAddress(address: string): boolean {
  const version = isIP(address);
  return version !== 0 && local.check(address, version === 4 ? 'ipv4' : 'ipv6');
}

/** Whether a certificate may name this host. Example: `isLocalName('desk.local')` is true. */
export function isLocalName(name: string): boolean {
  return DOMAINS.some((domain) => name.endsWith(`.${domain}`));
}

/** Tags of ASN.1 and of RFC 5280, section 4.2.1.6 (`dNSName` and `iPAddress` of a general name). */
const SEQUENCE = 0x30;
const PERMITTED_SUBTREES = 0xa0;
const DNS_NAME = 0x82;
const IP_ADDRESS = 0x87;

/** The value of the name constraints extension (RFC 5280, section 4.2.1.10), in DER. */
export function nameConstraints(): Uint8Array<ArrayBuffer> {
  const bases = [
    ...DOMAINS.map((domain) => tagged(DNS_NAME, [...Buffer.from(domain, 'ascii')])),
    ...RANGES.map((range) => tagged(IP_ADDRESS, addressAndMask(range))),
  ];
  const subtrees = bases.flatMap((base) => tagged(SEQUENCE, base));
  return new Uint8Array(tagged(SEQUENCE, tagged(PERMITTED_SUBTREES, subtrees)));
}

function addressAndMask({ head, bits, family }: (typeof RANGES)[number]): number[] {
  const length = family === 'ipv4' ? 4 : 16;
  const address = Array.from({ length }, (_, at) => head[at] ?? 0);
  const mask = Array.from({ length }, (_, at) => 0xff & ~(0xff >> Math.min(8, Math.max(0, bits - at * 8))));
  return [...address, ...mask];
}

/** Tag, length and content; lengths up to 255 take one more byte from 128 on, longer ones two. */
function tagged(tag: number, content: readonly number[]): number[] {
  const { length } = content;
  const size = length < 128 ? [length] : length < 256 ? [0x81, length] : [0x82, length >> 8, length & 0xff];
  return [tag, ...size, ...content];
}
