/** Which stations hold a line to the desk, and when each last did. In memory: a desk that starts again has seen nobody. */
import type { Session } from '../session/session.ts';

export interface Seen {
  connected: boolean;
  /** The moment at which its last line ended; null while it is connected, and if it had none since the book was opened. */
  lastSeen: string | null;
}

interface Line {
  count: number;
  lastSeen: string | null;
}

const of = new WeakMap<Session, Map<number, Line>>();

const linesOf = (session: Session): Map<number, Line> => {
  const lines = of.get(session) ?? new Map<number, Line>();
  of.set(session, lines);
  return lines;
};

/** A line of this station begins. @returns what ends it, and whether it had not ended before */
export function cameIn(session: Session, stationId: number): () => boolean {
  const lines = linesOf(session);
  const line = lines.get(stationId) ?? { count: 0, lastSeen: null };
  lines.set(stationId, line);
  line.count += 1;
  let isOver = false;
  return () => {
    if (isOver) return false;
    isOver = true;
    line.count -= 1;
    line.lastSeen = session.now();
    return true;
  };
}

export function seen(session: Session, stationId: number): Seen {
  const { count, lastSeen } = linesOf(session).get(stationId) ?? { count: 0, lastSeen: null };
  return { connected: count > 0, lastSeen: count > 0 ? null : lastSeen };
}
