/**
 * In place of the package that mixes colors for Chart.js while it animates or hovers, which the charts of the window never do
 * (src/ui/charts/engine/config.ts): it is 3 kB of the scripts that every window fetches.
 */
export class Color {
  constructor(value: unknown) {
    throw new Error(`Color ${String(value)}`);
  }
}
