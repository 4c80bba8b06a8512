/** Days and months as the moment's own text has them: `2026-11-25`, `2026-11`. */
const DAY = 10;
const MONTH = 7;
/** How many days that have backups keep one each: common practice, no source. */
const DAYS_KEPT = 30;

/** What the rule needs to know of a backup. */
export interface DatedBackup {
  /** UTC ISO moment at which it was made. */
  at: string;
  /** Made before the book was brought up to a new version: stays for good. */
  beforeUpdate: boolean;
}

/**
 * Which backups may go: all of the newest day stay, of the 30 newest days that have any the last of each, of every
 * month the last, and those made before an update. The rule looks at no clock, only at the backups: a computer
 * whose date jumps ahead ages nothing, and a shop that rests all summer loses nothing.
 * @param made the one just made, which stays whatever its date says: the clock may have been set back
 * @example backupsToDrop([…], made) // those to delete, in the order given
 */
export function backupsToDrop<T extends DatedBackup>(backups: readonly T[], made?: T): T[] {
  const newestFirst = [...backups].sort((a, b) => (a.at < b.at ? 1 : -1));
  const lastOf = (length: number) => {
    const last = new Map<string, T>();
    for (const one of newestFirst)
      if (!last.has(one.at.slice(0, length))) last.set(one.at.slice(0, length), one);
    return [...last.values()];
  };
  const newestDay = newestFirst[0]?.at.slice(0, DAY);
  const stay = new Set<T | undefined>([...lastOf(DAY).slice(0, DAYS_KEPT), ...lastOf(MONTH), made]);
  return backups.filter((one) => !one.beforeUpdate && one.at.slice(0, DAY) !== newestDay && !stay.has(one));
}
