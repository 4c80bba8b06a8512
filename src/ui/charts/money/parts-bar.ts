import type { ServiceAnswer } from '../../../bridge/contract.ts';

export type PartName = keyof ServiceAnswer['parts'];
export const PARTS: readonly PartName[] = ['wages', 'overhead', 'packaging', 'fat'];

/**
 * Positions of the parts of a cost, end to end, and of the fee on a bar from 0 to `width`; the scale ends a little
 * beyond the greater of cost and fee. Zero parts are left out.
 * @example placeParts({ wages: 30, overhead: 10, packaging: 10, fat: 0 }, 100, 110).fee // 100
 */
export function placeParts(
  parts: ServiceAnswer['parts'],
  fee: number | null,
  width: number,
): { parts: { name: PartName; x: number; width: number }[]; fee: number | null } {
  const cost = PARTS.reduce((total, name) => total + parts[name], 0);
  const most = Math.max(cost, fee ?? 0);
  const scale = most > 0 ? width / (most * 1.1) : 0;
  let x = 0;
  const placed = PARTS.filter((name) => parts[name] > 0).map((name) => {
    const at = { name, x, width: parts[name] * scale };
    x += at.width;
    return at;
  });
  return { parts: placed, fee: fee === null ? null : fee * scale };
}
