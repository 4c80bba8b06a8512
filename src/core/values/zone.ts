/**
 * Whether a time zone is known here: lists of zones grow, so one that a newer computer chose may not be.
 * @example isZone('America/Denver') // true; isZone('Etc/Unknown') // false
 */
export function isZone(zone: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: zone }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

/** The first of these zones that is known here, else UTC. A computer may not know its own. */
export function knownZone(...zones: readonly (string | undefined)[]): string {
  return zones.find((zone) => zone !== undefined && isZone(zone)) ?? 'UTC';
}
