import type { ScaleOptionsByType } from 'chart.js';
import type { ChartColors } from './colors.ts';
import { FONT_SIZE } from './axes.ts';
import type { Axis } from '../plot.ts';

type LinearScale = DeepPartial<ScaleOptionsByType<'linear'>> & { type: 'linear'; axis: 'x' | 'y' };
type DeepPartial<T> = T extends (...of: never[]) => unknown ? T : { [K in keyof T]?: DeepPartial<T[K]> };

/** An axis for the chart library: always numeric, so that marks may lie between two rows. */
export function scaleOf(axis: Axis, side: 'x' | 'y', colors: ChartColors): LinearScale {
  const font = { size: FONT_SIZE, family: colors.font };
  const { names, ticks, heading } = axis;
  return {
    type: 'linear',
    axis: side,
    // Rows and columns bring their own half at each end.
    offset: false,
    ...(axis.above ? { position: 'top' as const } : {}),
    reverse: names === true && side === 'y',
    ...(axis.min === undefined ? {} : { min: axis.min }),
    ...(axis.max === undefined ? {} : { max: axis.max }),
    grid: names ? { display: false } : { color: colors.line, tickColor: colors.line, offset: false },
    border: { color: colors.steel },
    ...(ticks ? { afterBuildTicks: (scale) => void (scale.ticks = ticks.map((value) => ({ value }))) } : {}),
    ticks: {
      color: names ? colors.ink : colors.muted,
      font: heading
        ? ({ tick }) => ({ ...font, weight: heading(tick?.value ?? -1) ? 'bold' : 'normal' })
        : font,
      autoSkip: !(names && side === 'y'),
      autoSkipPadding: 12,
      maxRotation: 0,
      includeBounds: false,
      maxTicksLimit: ticks ? ticks.length : 9,
      crossAlign: names && side === 'y' ? 'far' : 'near',
      callback: (value) => axis.written(Number(value)),
    },
    title: { display: axis.title !== undefined, text: axis.title ?? '', color: colors.muted, font },
  };
}
