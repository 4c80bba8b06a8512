/** Lessons through the ledger: once a day the shop's own go there, and those of the owner's other shops come back. */
import * as v from 'valibot';
import type { SharedLesson } from '../../ledger/feed/lessons.ts';
import { ProblemError } from '../contract/problem.ts';
import { lessonText } from '../learning/lesson-text.ts';
import { giveLesson } from '../lessons/lessons.ts';
import { textOf } from '../lessons/own-lessons.ts';
import { takeFromLedger } from '../lessons/take.ts';
import { write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { exchangeWithLedger, isEven } from './feeding.ts';

/** First guesses change slowly: our choice, no source. */
const EVERY_MS = 24 * 60 * 60_000;

/** When the lessons of an opening were last exchanged, ms. */
const exchanged = new WeakMap<Session, number>();

/** What this shop tells the others; null while there are fewer than five animals or batches of every kind. */
export const lesson = write(
  v.object({}),
  (session): SharedLesson | null => {
    const kept = giveLesson(session, '', false);
    if (!kept) return null;
    return { source: kept.source, label: session.settings.shopName, text: lessonText(textOf(kept)) };
  },
  { long: { when: () => true } },
);

export interface TeachingDesk {
  /** Runs `lesson`; null where that failed as well: it is tried again the next day. */
  lesson(): Promise<SharedLesson | null>;
  /** Runs work that writes. */
  write(work: (session: Session) => void): Promise<void>;
}

/** Exchanges lessons once everything is in the ledger, at most once a day. */
export async function teachThroughLedger(session: Session, desk: TeachingDesk): Promise<void> {
  const now = Date.now();
  if (!isEven(session) || now - (exchanged.get(session) ?? -Infinity) < EVERY_MS) return;
  exchanged.set(session, now);
  const mine = await desk.lesson();
  exchangeWithLedger(session, mine, (others) => {
    if (others.length > 0) void desk.write((open) => takeAll(open, others));
  });
}

function takeAll(session: Session, others: readonly SharedLesson[]): void {
  session.book.change(() => {
    for (const { label, text } of others) {
      try {
        takeFromLedger(session, { text, label: shownLabel(label), by: '' });
      } catch (error) {
        // Written by a newer program, not sound, or one shop too many: the others still teach.
        if (!(error instanceof ProblemError)) throw error;
      }
    }
  });
}

/** As long as a label that is typed. */
const shownLabel = (label: string): string => label.trim().slice(0, 60) || '–';
