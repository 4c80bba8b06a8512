/**
 * Downloads a large file over an unreliable connection: an interrupted or stalled transfer resumes, also in the
 * next run.
 */
import { createWriteStream, mkdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { setTimeout as wait } from 'node:timers/promises';
import { EnvHttpProxyAgent, fetch } from 'undici';
import { Incomplete, mayPass, Refused } from './download-failure.mjs';

/** A transfer without data for this time, ms, has stalled. The total time is unlimited. */
const STALL = 30_000;
/** Delays before retries, ms; this many consecutive tries may fail without progress. */
const PAUSES = [1_000, 2_000, 4_000, 8_000, 16_000];
/** Less than this many bytes counts as no progress. */
const WORTH = 64 * 1024;

/**
 * Fetches `url` into `target`. Data received before a failure is kept in `partial` and used by the next call. The
 * proxy is taken from `HTTPS_PROXY`, `HTTP_PROXY` and `NO_PROXY`.
 * @param {string} url
 * @param {string} target
 * @param {object} how
 * @param {string} how.partial
 * @param {(came: number, whole: number) => void} [how.onProgress] bytes; `whole` is 0 if the server does not state
 *   it
 * @param {(error: Error) => void} [how.onRetry] receives the reason of the retry
 * @param {number} [how.stall] stall timeout, ms
 * @param {number[]} [how.pauses] delays before the retries, ms
 * @throws the last failure, after several tries without progress, or immediately if a retry cannot help
 */
export async function download(url, target, how) {
  const { partial, onProgress, onRetry = () => {}, stall = STALL, pauses = PAUSES } = how;
  mkdirSync(dirname(partial), { recursive: true });
  const through = new EnvHttpProxyAgent({
    headersTimeout: stall,
    bodyTimeout: stall,
    connect: { timeout: stall },
  });
  try {
    let began = false;
    for (let poor = 0; ;) {
      const before = size(partial);
      try {
        await transfer(url, partial, through, onProgress);
        break;
      } catch (error) {
        began ||= size(partial) > before;
        poor = size(partial) - before >= WORTH ? 0 : poor + 1;
        if (!mayPass(error, began) || poor > pauses.length) throw error;
        onRetry(error);
        await wait(pauses[Math.max(0, poor - 1)]);
      }
    }
  } finally {
    await through.destroy();
  }
  renameSync(partial, target);
}

/** One try: requests the missing range and appends it to `partial`. */
async function transfer(url, partial, dispatcher, onProgress = () => {}) {
  const have = size(partial);
  const response = await fetch(url, {
    dispatcher,
    headers: { 'accept-encoding': 'identity', ...(have > 0 ? { range: `bytes=${have}-` } : {}) },
  });
  const { status } = response;
  const range = contentRange(response.headers.get('content-range'));
  if (status !== 200 && (status !== 206 || range.first !== have)) {
    await response.body?.cancel();
    if (status === 416 && range.whole === have) return; // complete before the last failure
    if (status !== 416 && status !== 206) throw new Refused(status, new URL(response.url).host);
    rmSync(partial, { force: true }); // another file than the partial one
    throw new Incomplete();
  }
  // 200 to a range request: the server sends the whole file again.
  let came = status === 206 ? have : 0;
  const whole = status === 206 ? range.whole : Number(response.headers.get('content-length') ?? 0);
  onProgress(came, whole);
  const counted = async function* (chunks) {
    for await (const chunk of chunks) {
      yield chunk;
      onProgress((came += chunk.length), whole);
    }
  };
  const file = createWriteStream(partial, { flags: status === 206 ? 'a' : 'w' });
  await pipeline(Readable.fromWeb(response.body), counted, file);
  if (whole > 0 && size(partial) !== whole) throw new Incomplete();
}

/** `bytes 100-199/500` gives 100 and 500, one with `*` only 500. Source: RFC 9110, 14.4. */
function contentRange(header) {
  const [, first, whole] = /^bytes (?:(\d+)-\d+|\*)\/(\d+|\*)$/.exec(header ?? '') ?? [];
  return { first: first === undefined ? null : Number(first), whole: Number(whole) || 0 };
}

/** @param {string} file */
function size(file) {
  return statSync(file, { throwIfNoEntry: false })?.size ?? 0;
}
