/**
 * Days that can be and still are probably mistyped: the desk asks, and takes them once somebody is sure. How far is too
 * far is our choice for each kind of day, no source.
 */
import { compareDates, daysBetween } from '../../core/values/dates.ts';
import type { Question } from './input.ts';
import { ProblemError } from '../contract/problem.ts';

/** An animal is written in on the day it comes, or a few weeks later from a paper slip. */
export const RECEIVED_DAYS = 60;
/** Meat of an animal killed longer ago came frozen, or the day is wrong. */
export const KILLED_DAYS = 30;
export const PROMISED_DAYS = 180;
export const DISPOSED_DAYS = 60;
/** A laboratory's letter may take its time. */
export const RESULT_DAYS = 120;
/** Nobody leaves finished meat for longer. */
export const LEFT_DAYS = 400;
export const PRICES_AHEAD_DAYS = 366;
export const PRICES_AGO_DAYS = 10 * 366;
/** Frozen fat keeps for a year or two. */
export const USE_BY_AHEAD_DAYS = 5 * 366;
export const USE_BY_AGO_DAYS = 60;
/** Earlier seasons that are brought in from a file. */
export const IMPORTED_DAYS = 15 * 366;

export type Confirmed = boolean | readonly Question[];

/** Whether the question of this code was answered with yes. */
export function isConfirmed(confirmed: Confirmed, code: Question): boolean {
  return typeof confirmed === 'boolean' ? confirmed : confirmed.includes(code);
}

/** @throws ProblemError `code` (conflict) unless somebody is sure */
export function ask(confirmed: Confirmed, code: Question, field: string, day: string): void {
  if (!isConfirmed(confirmed, code)) throw new ProblemError('conflict', code, { field, with: { date: day } });
}

/** The question about a day that lies further from another than it usually does, or null. */
export function farCode(
  day: string,
  from: string,
  { ago, ahead }: { ago?: number; ahead?: number },
): 'date.long-ago' | 'date.far-ahead' | null {
  const days = daysBetween(from, day);
  if (ago !== undefined && -days > ago) return 'date.long-ago';
  return ahead !== undefined && days > ahead ? 'date.far-ahead' : null;
}

/** @throws ProblemError `date.future` where a day lies after today */
export function refuseFuture(day: string, today: string, field: string): void {
  if (compareDates(day, today) > 0) throw new ProblemError('invalid', 'date.future', { field });
}

/** @throws ProblemError `date.long-ago`, `date.far-ahead` (conflict: pass `confirmed`) */
export function askFar(
  confirmed: Confirmed,
  field: string,
  day: string,
  from: string,
  span: { ago?: number; ahead?: number },
): void {
  const code = farCode(day, from, span);
  if (code) ask(confirmed, code, field, day);
}

/** @throws ProblemError `date.killed-after-received`; `date.killed-long-before` (conflict) */
export function checkKilled(confirmed: Confirmed, killed: string | null, received: string): void {
  if (!killed) return;
  if (compareDates(killed, received) > 0)
    throw new ProblemError('invalid', 'date.killed-after-received', { field: 'killDate' });
  if (daysBetween(killed, received) > KILLED_DAYS)
    ask(confirmed, 'date.killed-long-before', 'killDate', killed);
}
