import type { ChartOptions, ChartType } from 'chart.js';

/** Options common to every plot, on the page and in a saved picture. */
export function plotOptions(own: ChartOptions<ChartType> | undefined): ChartOptions<ChartType> {
  return {
    animation: false,
    maintainAspectRatio: false,
    ...own,
    plugins: { legend: { display: false }, ...own?.plugins },
  };
}
