import { listText } from '../../words/list.ts';

/**
 * The received pieces of an animal, as on a tag; '' if it is complete or nobody counted.
 * @example piecesText([{ primal: 'shoulder', count: 1 }, { primal: 'haunch', count: 2 }], elk.primals)
 * // '1 × Shoulder, 2 × Hind leg'
 */
export function piecesText(
  parts: readonly { primal: string; count: number }[],
  primals: readonly { code: string; name: string }[],
): string {
  return listText(
    parts.map(
      ({ primal, count }) => `${count} × ${primals.find(({ code }) => code === primal)?.name ?? primal}`,
    ),
  );
}
