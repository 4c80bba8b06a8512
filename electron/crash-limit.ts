/** A part that stops this often within `WITHIN` ms is not started again. */
const MOST_STOPS = 3;
const WITHIN = 60_000;

/** Counts how a part of the program stops; each call is one stop and tells whether that was once too often. */
export function makeCrashLimit(): () => boolean {
  const stops: number[] = [];
  return () => {
    const now = Date.now();
    stops.push(now);
    return stops.filter((at) => now - at < WITHIN).length >= MOST_STOPS;
  };
}
