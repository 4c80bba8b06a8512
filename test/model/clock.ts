/** When a shop does not write because of what the computer's clock shows. */
import type { Shop } from './shop.ts';

const DAY = 86_400_000;
const EARLIEST = Date.parse('2020-01-01T00:00:00Z');
const LATEST = Date.parse('2099-12-01T00:00:00Z');
/** The desk looks again within the hour. */
const HOURS = 2 * 3_600_000;

export function clockDoubt({ now, book }: Shop): { refuse: string[]; may: string[] } {
  const beyond = Math.max(EARLIEST - now, now - LATEST);
  if (beyond > HOURS) return { refuse: ['clock.impossible'], may: [] };
  if (beyond > 0) return { refuse: [], may: ['clock.impossible'] };
  const entries = Object.values(book.lastEntries);
  if (entries.length === 0) return { refuse: [], may: [] };
  const found = Math.max(...entries);
  const { trusted } = book;
  // What was there when somebody looked at the clock, and is later than it, was made with a wrong clock.
  const known = trusted !== null && (trusted.newest === null || found <= trusted.newest);
  const newest = known && (found < trusted.at || found > now) ? trusted.at : found;
  const ahead = now - newest - 400 * DAY;
  const behind = newest - now - 30 * DAY;
  const near = (over: number): boolean => Math.abs(over) < HOURS;
  const code = ahead > -HOURS ? 'clock.ahead' : behind > -HOURS ? 'clock.behind' : null;
  if (!code) return { refuse: [], may: [] };
  return near(ahead) || near(behind) ? { refuse: [], may: [code] } : { refuse: [code], may: [] };
}
