import type { ServiceAnswer } from '../../../bridge/contract.ts';

export type PartName = keyof ServiceAnswer['parts'];
export const PARTS: readonly PartName[] = ['wages', 'overhead', 'packaging', 'fat'];

/**
 * Where the parts of a cost lie on a bar from 0 to `width`, end to end, and where the fee is; the scale ends a little
 * past the greater of cost and fee. Parts that cost nothing are left out.
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
