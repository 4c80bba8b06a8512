/** The places of a shop's floor at which a station may stand, shared by book and desk. */

/** `office` may do everything that the shop's own window may, `hunter` is a hunter's own check-in. */
export const PLACES = [
  'office', 'counter', 'cooler', 'table', 'grinder', 'smokehouse', 'pickup', 'hunter',
] as const; // prettier-ignore
export type Place = (typeof PLACES)[number];
