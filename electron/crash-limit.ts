/** A process that stops this often within `WITHIN` ms is not restarted. */
const MAX_STOPS = 3;
const WITHIN = 60_000;

/** Counts how often a process stops; each call records one stop and returns whether the limit is reached. */
export function makeCrashLimit(): () => boolean {
  const stops: number[] = [];
  return () => {
    const now = Date.now();
    stops.push(now);
    return stops.filter((at) => now - at < WITHIN).length >= MAX_STOPS;
  };
}
