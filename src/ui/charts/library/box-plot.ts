import {
  PointElement,
  ScatterController,
  type CartesianScaleTypeRegistry,
  type ScatterControllerChartOptions,
  type UpdateMode,
} from 'chart.js';

/** The spread of a row `y`; `x` is the median, or null for a row that has no box. */
export type RowSpread =
  { x: number; y: number; min: number; q1: number; q3: number; max: number } | { x: null; y: number };

/** How the boxes of a data set are drawn; sizes in CSS pixels. */
interface BoxLook {
  yAxisID: string;
  order: number;
  borderColor: string;
  borderWidth: number;
}

declare module 'chart.js' {
  interface ChartTypeRegistry {
    boxplot: {
      chartOptions: ScatterControllerChartOptions;
      datasetOptions: BoxLook;
      defaultDataPoint: RowSpread;
      metaExtensions: object;
      parsedDataType: { x: number; y: number };
      scales: keyof CartesianScaleTypeRegistry;
    };
  }
}

/** The part of a row that its box fills. */
const FILLED = 0.54;

/** Its sides in pixels, and its quartiles. */
interface Sides {
  min: number;
  q1: number;
  q3: number;
  max: number;
  top: number;
  bottom: number;
}

/** A lying box from the first to the third quartile, with its median and whiskers. It is pressed as a whole. */
export class BoxShape extends PointElement {
  static override id = 'boxShape';
  sides: Sides | null = null;

  override inXRange(x: number): boolean {
    return this.sides !== null && x >= this.sides.min && x <= this.sides.max;
  }
  override inYRange(y: number): boolean {
    return this.sides !== null && y >= this.sides.top && y <= this.sides.bottom;
  }
  override inRange(x: number, y: number): boolean {
    return this.inXRange(x) && this.inYRange(y);
  }
  override draw(ctx: CanvasRenderingContext2D): void {
    if (!this.sides) return;
    const { min, q1, q3, max, top, bottom } = this.sides;
    ctx.save();
    ctx.strokeStyle = String(this.options.borderColor);
    ctx.lineWidth = this.options.borderWidth;
    ctx.strokeRect(q1, top, q3 - q1, bottom - top);
    ctx.beginPath();
    for (const x of [min, this.x, max]) {
      ctx.moveTo(x, top);
      ctx.lineTo(x, bottom);
    }
    for (const [from, to] of [
      [min, q1],
      [q3, max],
    ] as const) {
      ctx.moveTo(from, this.y);
      ctx.lineTo(to, this.y);
    }
    ctx.stroke();
    ctx.restore();
  }
}

export class BoxPlot extends ScatterController {
  static override id = 'boxplot';
  static override defaults = { dataElementType: BoxShape.id };
  static overrides = { interaction: { mode: 'nearest' } };

  override updateElements(shapes: BoxShape[], start: number, count: number, mode: UpdateMode): void {
    super.updateElements(shapes, start, count, mode);
    const { xScale, yScale } = this.getMeta();
    const rows = this.getDataset().data as unknown as readonly RowSpread[];
    shapes.forEach((shape, at) => {
      const row = rows[at];
      if (!xScale || !yScale || !row || row.x === null) return;
      const across = (value: number): number => xScale.getPixelForValue(value);
      shape.sides = {
        min: across(row.min),
        q1: across(row.q1),
        q3: across(row.q3),
        max: across(row.max),
        top: yScale.getPixelForValue(row.y - FILLED / 2),
        bottom: yScale.getPixelForValue(row.y + FILLED / 2),
      };
    });
  }
}
