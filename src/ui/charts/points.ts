import type { Format } from '../texts/format.ts';

/** A difference of two fats in points with its sign: `+0.4`, `−1.2`. */
export function pointsOf(share: number, format: Format): string {
  const points = format.number(Math.abs(share) * 100, 1);
  if (Number(points.replace(',', '.')) === 0) return points;
  return share < 0 ? `−${points}` : `+${points}`;
}
