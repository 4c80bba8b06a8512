import {
  ScatterController,
  type CartesianScaleTypeRegistry,
  type ScatterControllerChartOptions,
  type ScatterControllerDatasetOptions,
  type Scale,
} from 'chart.js';

/** A point with a horizontal range. */
interface RangedPoint {
  x: number;
  y: number;
  xMin: number;
  xMax: number;
}

/** How the ranges of a data set are drawn; sizes in CSS pixels. */
interface ErrorBarLook {
  errorBarColor: string;
  errorBarLineWidth: number;
  errorBarWhiskerLineWidth: number;
  errorBarWhiskerSize: number;
}

declare module 'chart.js' {
  interface ChartTypeRegistry {
    scatterWithErrorBars: {
      chartOptions: ScatterControllerChartOptions;
      datasetOptions: ScatterControllerDatasetOptions & ErrorBarLook;
      defaultDataPoint: RangedPoint;
      metaExtensions: object;
      parsedDataType: { x: number; y: number };
      scales: keyof CartesianScaleTypeRegistry;
    };
  }
}

/** Scattered points with their ranges: a bar with an upright whisker at each end, over the point. */
export class ScatterWithErrorBars extends ScatterController {
  static override id = 'scatterWithErrorBars';

  override draw(): void {
    super.draw();
    const { ctx } = this.chart;
    const { xScale } = this.getMeta();
    const look = this.getDataset() as unknown as ErrorBarLook;
    const half = look.errorBarWhiskerSize / 2;
    ctx.save();
    ctx.strokeStyle = look.errorBarColor;
    this.ranges().forEach(({ xMin, xMax }, at) => {
      const point = this.getMeta().data[at];
      if (!point || !xScale) return;
      const { y } = point.getProps(['y'], true);
      const [low, high] = [xScale.getPixelForValue(xMin), xScale.getPixelForValue(xMax)];
      line(ctx, look.errorBarLineWidth, [low, y, high, y]);
      for (const end of [low, high]) line(ctx, look.errorBarWhiskerLineWidth, [end, y - half, end, y + half]);
    });
    ctx.restore();
  }

  /** The axis reaches to the ends of the ranges. */
  protected override getMinMax(scale: Scale, canStack?: boolean): { min: number; max: number } {
    const { min, max } = super.getMinMax(scale, canStack);
    if (scale.axis !== 'x') return { min, max };
    return {
      min: Math.min(min, ...this.ranges().map(({ xMin }) => xMin)),
      max: Math.max(max, ...this.ranges().map(({ xMax }) => xMax)),
    };
  }

  private ranges(): readonly RangedPoint[] {
    return this.getDataset().data as unknown as readonly RangedPoint[];
  }
}

type Stroke = readonly [fromX: number, fromY: number, toX: number, toY: number];

function line(ctx: CanvasRenderingContext2D, width: number, [fromX, fromY, toX, toY]: Stroke): void {
  ctx.lineWidth = width;
  ctx.beginPath();
  ctx.moveTo(fromX, fromY);
  ctx.lineTo(toX, toY);
  ctx.stroke();
}
