import type { FatSourceCard, Instructions } from '../../bridge/contract.ts';
import type { Format } from '../texts/format.ts';

/**
 * Cutting instructions as short lines for the wall.
 * @example first line: '40 % kept as steaks and roasts, the rest ground as “Ground”'
 */
export function ordersLines(orders: Instructions, fats: readonly FatSourceCard[], format: Format): string[] {
  const share = format.share(orders.cutsShare, 0);
  const kept =
    orders.cutsShare === 0
      ? `All ground as “${orders.grindProduct}”`
      : orders.cutsShare === 1
        ? 'All kept as steaks and roasts'
        : `${share} kept as steaks and roasts, the rest ground as “${orders.grindProduct}”`;
  return [
    kept,
    ...(orders.cutsShare === 1 ? [] : [fatLine(orders, fats, format)]),
    `Packages of ${format.mass(orders.packageGrams)}`,
    ...orders.extras,
  ];
}

function fatLine(orders: Instructions, fats: readonly FatSourceCard[], format: Format): string {
  if (orders.fat === 'none') return 'No fat added';
  const name =
    orders.fat === 'own'
      ? 'its own fat'
      : (fats.find(({ code }) => code === orders.fat)?.name ?? orders.fat).toLowerCase();
  return orders.targetFat === null
    ? `Fat: ${name}, as much as suits`
    : `Ground to ${format.share(orders.targetFat)} fat with ${name}`;
}
