/** Lengths of the day and month prefixes of a moment: `2026-11-25`, `2026-11`. */
const DAY = 10;
const MONTH = 7;
/** Number of days that keep one backup each: common practice, no source. */
const MAX_DAYS = 30;

/** The fields that the rule needs. */
export interface DatedBackup {
  /** UTC ISO moment of creation. */
  at: string;
  /** Made before a migration: never deleted. */
  beforeUpdate: boolean;
}

/**
 * The backups that may be deleted. Kept are all of the newest day, the last of each of the 30 newest days with
 * backups, the last of every month, and those made before an update. The rule uses no clock, only the backups: a
 * wrong system date or a summer without work deletes nothing.
 * @param made the backup just made, never deleted whatever its date: the clock may have been set back
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
  const stay = new Set<T | undefined>([...lastOf(DAY).slice(0, MAX_DAYS), ...lastOf(MONTH), made]);
  return backups.filter((one) => !one.beforeUpdate && one.at.slice(0, DAY) !== newestDay && !stay.has(one));
}
