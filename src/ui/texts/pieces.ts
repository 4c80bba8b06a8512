import { text as words } from '../../words/compiled/shared/common.ts';
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

/**
 * How an animal was received, and which pieces of it.
 * @example withPieces('Quarters', '2 × Hind leg') // 'Quarters: 2 × Hind leg'
 */
export function withPieces(brought: string, pieces: string): string {
  return pieces === '' ? brought : words.named({ name: brought, text: pieces });
}
