/**
 * The maximum number of records of each kind, so that every list stays bounded. All are our own choice, far above a
 * shop's needs. Weights, payments and bills have theirs where they are entered (`weigh.ts`, `bills.ts`).
 */
import type { AnimalRow } from '../../book/records/animals.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from './session.ts';

interface Most {
  most: number;
  /** The problem code at the limit. */
  code: string;
}

/** Per animal. */
export const MAX_OF_ANIMAL = {
  hold: { most: 100, code: 'hold.too-many' },
  result: { most: 200, code: 'result.too-many' },
  note: { most: 200, code: 'note.too-many' },
  affectedNote: { most: 200, code: 'affected.too-many' },
  instructions: { most: 200, code: 'orders.too-many' },
  workTime: { most: 200, code: 'hours.too-many' },
  adjustment: { most: 100, code: 'adjustment.too-many' },
  split: { most: 200, code: 'share.too-many' },
  donation: { most: 200, code: 'donation.too-many' },
  unprocessed: { most: 100, code: 'unprocessed.too-many' },
  notice: { most: 200, code: 'notice.too-many' },
  photo: { most: 100, code: 'photo.too-many' },
  belonging: { most: 100, code: 'belonging.too-many' },
} as const satisfies Record<string, Most>;
/** Per shop: staff and coolers in use, lots of bought fat on hand, and everything on a shelf, offered or not. */
export const MAX_OF_SHOP = {
  staff: { most: 200, code: 'staff.too-many' },
  cooler: { most: 100, code: 'cooler.too-many' },
  fat: { most: 200, code: 'fat.too-many' },
  species: { most: 200, code: 'species.too-many' },
  product: { most: 500, code: 'product.too-many' },
  template: { most: 500, code: 'template.too-many' },
  ingredient: { most: 1000, code: 'ingredient.too-many' },
  recipe: { most: 300, code: 'recipe.too-many' },
} as const satisfies Record<string, Most>;

/**
 * Called before one more is added.
 * @throws ProblemError `hold.too-many`, `result.too-many`, `note.too-many`, `affected.too-many`, `orders.too-many`,
 *   `hours.too-many`, `adjustment.too-many` (refused)
 */
export function refuseMoreOfAnimal(
  session: Session,
  animal: Pick<AnimalRow, 'id' | 'ticket'>,
  kind: keyof typeof MAX_OF_ANIMAL,
): void {
  const { most, code } = MAX_OF_ANIMAL[kind];
  if (session.book.counts.ofAnimal(kind, animal.id) >= most)
    throw new ProblemError('refused', code, { with: { ticket: animal.ticket, count: most } });
}

/**
 * Called before one more is added.
 * @param count the present number
 * @throws ProblemError `staff.too-many`, `cooler.too-many`, `fat.too-many`, `species.too-many`, `product.too-many`,
 *   `template.too-many`, `ingredient.too-many`, `recipe.too-many` (refused)
 */
export function refuseMoreOfShop(kind: keyof typeof MAX_OF_SHOP, count: number): void {
  const { most, code } = MAX_OF_SHOP[kind];
  if (count >= most) throw new ProblemError('refused', code, { with: { count: most } });
}
