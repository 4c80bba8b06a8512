/**
 * Whether this runtime knows a time zone: a newer computer may have stored one that it does not.
 * @example isZone('America/Denver') // true; isZone('Etc/Unknown') // false
 */
export function isZone(zone: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: zone }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

/** The first of these zones that this runtime knows, else UTC. The computer's own zone may be unknown. */
export function knownZone(...zones: readonly (string | undefined)[]): string {
  return zones.find((zone) => zone !== undefined && isZone(zone)) ?? 'UTC';
}
