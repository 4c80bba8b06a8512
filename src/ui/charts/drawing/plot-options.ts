import type { ChartOptions, ChartType } from 'chart.js';

/** What every plot of the house has in common, on the page and in a saved picture. */
export function plotOptions(own: ChartOptions<ChartType> | undefined): ChartOptions<ChartType> {
  return {
    animation: false,
    maintainAspectRatio: false,
    ...own,
    plugins: { legend: { display: false }, ...own?.plugins },
  };
}
