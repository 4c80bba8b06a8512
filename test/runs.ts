/**
 * How many random cases a slow test draws. An ordinary run draws the same ones each time, so a third of them finds what a change
 * broke; `npm run fuzz` draws all of them, anew each time.
 */
export function runs(most: number): number {
  return process.env.MODE === 'fuzz' ? most : Math.ceil(most / 3);
}
