/** What the port answers without TLS: how to trust the shop's root, the root itself, a hunter's own phone, and the way to TLS. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { PhoneDoor } from '../../desk/contract/stations.ts';
import type { OpenAuthority } from '../authority/open.ts';
import { RefusedRequest, refuseRaw } from '../server/refusal.ts';
import { checkAddress, pathOf } from '../server/sender.ts';
import { checkHost } from './allowed.ts';
import { answerPhones, isPhonePath } from './phone/answer.ts';
import { PHONE_POLICY } from './phone/style.ts';
import { startTimeouts } from './raw-sockets.ts';
import { trustPage, TRUST_POLICY } from './trust-page.ts';

interface PlainOptions {
  authority: OpenAuthority;
  shop: string;
  door: { phones: PhoneDoor };
  patience: { headersMs: number; requestMs: number; checkMs: number };
  /** The hosts, with port, under which this computer is reached now. */
  hosts(): readonly string[];
}

interface PlainAnswer {
  status: number;
  headers: Record<string, string>;
  body?: string | Uint8Array;
}

const HEADERS = {
  'content-security-policy': TRUST_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cache-control': 'no-store',
  connection: 'close',
};

/**
 * The files of the root, both in DER: systems take `.cer` with the type of an authority; Android's browser would try,
 * and since Android 11 fail, to install that, so there it is a file to be chosen in the settings.
 */
const ROOT_FILES: Readonly<Record<string, string>> = {
  '/gambrel.cer': 'application/x-x509-ca-cert',
  '/gambrel.crt': 'application/octet-stream',
};

/**
 * A server for sockets that are handed to it. It takes no body but that of a hunter's phone, where the shop allows it: what somebody
 * sends here, anybody could read.
 */
export function openPlainServer(options: PlainOptions): Server {
  const { headersMs, requestMs, checkMs } = options.patience;
  const patience = {
    headersTimeout: headersMs,
    requestTimeout: requestMs,
    connectionsCheckingInterval: checkMs,
  };
  const phones = answerPhones(options.door.phones);
  const server = createServer(patience, (request, response) => void send(request, response, options, phones));
  server.on('clientError', refuseRaw);
  startTimeouts(server);
  return server;
}

type AnswerPhones = ReturnType<typeof answerPhones>;

async function send(
  request: IncomingMessage,
  response: ServerResponse,
  options: PlainOptions,
  phones: AnswerPhones,
): Promise<void> {
  const { status, headers, body } = await answer(request, options, phones);
  const bytes = Buffer.from(body ?? '');
  response.writeHead(status, { ...HEADERS, ...headers, 'content-length': bytes.length });
  response.end(request.method === 'HEAD' ? undefined : bytes);
}

async function answer(
  request: IncomingMessage,
  options: PlainOptions,
  phones: AnswerPhones,
): Promise<PlainAnswer> {
  try {
    return isPhonePath(request) ? await phoneAnswer(request, options, phones) : plainAnswer(request, options);
  } catch (error) {
    if (error instanceof RefusedRequest) return refusal(error);
    console.error('Gambrel: a request failed.', error);
    return refusal(new RefusedRequest(500, 'broken', 'desk.failed'));
  }
}

/** @throws RefusedRequest */
async function phoneAnswer(
  request: IncomingMessage,
  { hosts }: PlainOptions,
  phones: AnswerPhones,
): Promise<PlainAnswer> {
  checkAddress(request);
  const { status, body } = await phones(request, checkHost(request, hosts()));
  return { status, headers: PHONE_HEADERS, body };
}

/** A form states its origin only where the page may be named to itself. */
const PHONE_HEADERS = {
  'content-type': 'text/html; charset=utf-8',
  'content-security-policy': PHONE_POLICY,
  'referrer-policy': 'same-origin',
};

/** @throws RefusedRequest */
function plainAnswer(request: IncomingMessage, { hosts, authority, shop }: PlainOptions): PlainAnswer {
  checkAddress(request);
  const host = checkHost(request, hosts());
  if (request.method !== 'GET' && request.method !== 'HEAD')
    throw new RefusedRequest(403, 'refused', 'line.not-secure');
  const path = pathOf(request);
  if (path === '/') {
    const body = trustPage({ ...saidBy(request), host, shop, fingerprints: authority.fingerprints });
    return { status: 200, headers: { 'content-type': 'text/html; charset=utf-8' }, body };
  }
  const type = ROOT_FILES[path];
  if (type !== undefined) {
    const headers = {
      'content-type': type,
      'content-disposition': `attachment; filename="${path.slice(1)}"`,
    };
    return { status: 200, headers, body: authority.root };
  }
  return { status: 307, headers: { location: `https://${host}${request.url ?? '/'}` } };
}

function saidBy({ url = '/', headers }: IncomingMessage) {
  const asked = new URLSearchParams(url.split('?', 2)[1]).get('language');
  return { asked, accepts: headers['accept-language'] ?? '', agent: headers['user-agent'] ?? '' };
}

function refusal({ status, problem }: RefusedRequest): PlainAnswer {
  return {
    status,
    headers: { 'content-type': 'application/json; charset=utf-8' },
    body: JSON.stringify({ ok: false, problem }),
  };
}
