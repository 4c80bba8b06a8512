/** Width of one hook on the rail, in CSS pixels. */
export const HOOK_WIDTH = 84;
/** Width of the link to the hidden ones. */
const MORE_WIDTH = 110;

/**
 * The hooks to draw when the rail is too short for all: the first ones, and the one that is open on the table in
 * the last place if it would be hidden.
 * @param width available width in CSS pixels
 * @returns the hooks to draw and the number of hidden ones
 * @example fitHooks(['a', 'b', 'c'], 200, null) // { shown: ['a'], more: 2 }
 */
export function fitHooks<T>(
  hooks: readonly T[],
  width: number,
  open: T | null,
): { shown: T[]; more: number } {
  if (hooks.length * HOOK_WIDTH <= width) return { shown: [...hooks], more: 0 };
  const room = Math.max(1, Math.floor((width - MORE_WIDTH) / HOOK_WIDTH));
  const shown = hooks.slice(0, room);
  if (open !== null && hooks.includes(open) && !shown.includes(open)) shown[room - 1] = open;
  return { shown, more: hooks.length - shown.length };
}
