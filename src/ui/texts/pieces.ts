/**
 * The received pieces of an animal, as on a tag; '' if it is complete or nobody counted.
 * @example piecesText([{ primal: 'shoulder', count: 1 }, { primal: 'haunch', count: 2 }], elk.primals)
 * // '1 shoulder, 2 × hind leg'
 */
export function piecesText(
  parts: readonly { primal: string; count: number }[],
  primals: readonly { code: string; name: string }[],
): string {
  return parts
    .map(({ primal, count }) => {
      const name = (primals.find(({ code }) => code === primal)?.name ?? primal).toLowerCase();
      return count === 1 ? `1 ${name}` : `${count} × ${name}`;
    })
    .join(', ');
}
