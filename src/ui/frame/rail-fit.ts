/** Width of one hook on the rail, in CSS pixels: as wide as fits between these. */
export const WIDEST = 76;
export const NARROWEST = 50;

/** What the rail draws. */
export interface RailFit<T> {
  shown: T[];
  /** Number of hidden ones, which hang as a stack on a hook of their own. */
  more: number;
  /** Width of each hook, in CSS pixels. */
  pitch: number;
}

/**
 * The hooks to draw: all, closer together the more there are. Where even the narrowest do not fit, the first ones,
 * and the one that is open on the table in the last place if it would be hidden.
 * @param width available width in CSS pixels
 * @example fitHooks(['a', 'b', 'c'], 100, null) // { shown: ['a'], more: 2, pitch: 50 }
 */
export function fitHooks<T>(hooks: readonly T[], width: number, open: T | null): RailFit<T> {
  const pitch = Math.min(WIDEST, Math.floor(width / Math.max(1, hooks.length)));
  if (pitch >= NARROWEST) return { shown: [...hooks], more: 0, pitch };
  const room = Math.max(1, Math.floor(width / NARROWEST) - 1);
  const shown = hooks.slice(0, room);
  if (open !== null && hooks.includes(open) && !shown.includes(open)) shown[room - 1] = open;
  return { shown, more: hooks.length - shown.length, pitch: NARROWEST };
}
