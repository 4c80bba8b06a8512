import type { Hook } from '../../bridge/contract.ts';

/** What hangs in one cooler. */
export interface Beam {
  /** Null: nobody said where. */
  name: string | null;
  /** How many have room; null where the cooler is not known. */
  places: number | null;
  /** Longest hung first. */
  hooks: Hook[];
  /** The first so many hang as long as the limit or longer. */
  past: number;
}

/**
 * The hooks by cooler, in the order of the shop's list; those of no cooler last. A cooler in which nothing hangs is
 * left out.
 * @param hooks longest hung first
 */
export function beamsOf(
  hooks: readonly Hook[],
  coolers: readonly { name: string; places: number }[],
  limitDays: number,
): Beam[] {
  const known = new Map(coolers.map(({ name, places }) => [name, places]));
  const names = [
    ...known.keys(),
    ...new Set(hooks.map(({ cooler }) => cooler).filter((name) => name !== null && !known.has(name))),
    null,
  ];
  return names
    .map((name) => ({ name, of: hooks.filter(({ cooler }) => cooler === name) }))
    .filter(({ of }) => of.length > 0)
    .map(({ name, of }) => ({
      name,
      places: known.get(name ?? '') ?? null,
      hooks: of,
      past: of.filter(({ days }) => days >= limitDays).length,
    }));
}
