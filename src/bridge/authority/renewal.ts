/** When certificates are made anew. */
import { X509Certificate } from 'node:crypto';

const DAY = 86_400_000;
/** Days before its end at which an authority is no longer used. */
const LAST_DAYS = 30;

/** Whether a third of a leaf's life or less is left, or it is not valid yet because the clock was set back. */
export function isDue(leaf: string, now: Date): boolean {
  const { validFromDate, validToDate } = new X509Certificate(leaf);
  const life = validToDate.getTime() - validFromDate.getTime();
  const left = validToDate.getTime() - now.getTime();
  return left <= life / 3 || now < validFromDate;
}

/** Whether an authority ends so soon that a new one is made, which every station trusts anew. */
export function isEnding(signer: string, now: Date): boolean {
  return new X509Certificate(signer).validToDate.getTime() - now.getTime() < LAST_DAYS * DAY;
}
