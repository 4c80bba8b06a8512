import type { ChartColors } from './colors.ts';

/** Text size in the drawings, well above the minimum of twelve pixels. */
export const FONT_SIZE = 14;

/** An axis of shares in percent with `unit` appended, with light grid lines. */
export function percentAxis(colors: ChartColors, title: string, unit = '%') {
  const font = { size: FONT_SIZE, family: colors.font };
  return {
    type: 'linear' as const,
    grid: { color: colors.line },
    border: { color: colors.steel },
    ticks: {
      color: colors.muted,
      font,
      maxTicksLimit: 9,
      callback: (value: number | string) => `${Math.round(Number(value) * 1000) / 10}${unit}`,
    },
    title: { display: true, text: title, color: colors.muted, font },
  };
}

/** An axis with one row or column for each name. */
export function nameAxis(colors: ChartColors, labels: string[]) {
  return {
    type: 'category' as const,
    labels,
    offset: true,
    grid: { display: false },
    border: { color: colors.steel },
    ticks: { color: colors.ink, font: { size: FONT_SIZE, family: colors.font }, autoSkip: false },
  };
}

/** Many names below a plot: level, and only as many as fit beside each other. */
export function levelNameAxis(colors: ChartColors, labels: string[]) {
  const axis = nameAxis(colors, labels);
  return { ...axis, ticks: { ...axis.ticks, autoSkip: true, autoSkipPadding: 12, maxRotation: 0 } };
}

/** The same rows as a hidden numeric axis (row i at i), for marks between two rows. */
export function rowAxis(rows: number) {
  return {
    type: 'linear' as const,
    axis: 'y' as const,
    display: false,
    offset: false,
    reverse: true,
    min: -0.5,
    max: rows - 0.5,
  };
}
