/** What the shop makes: the supplied products, and its own beside or in place of them. */
import suppliedJson from '../../resources/products.json' with { type: 'json' };
import type { DeskRoom } from './room.ts';
import type { ProductCard } from './shapes.ts';

const SUPPLIED = suppliedJson as readonly Omit<ProductCard, 'own'>[];

/** Products on offer, by kind in the order of the supplied list, the shop's own after them. */
export function productCards(room: DeskRoom): ProductCard[] {
  const rows = room.book.products.all();
  const own = new Map(
    rows.map(({ code, name, kind, body }) => [
      code,
      {
        ...(JSON.parse(body) as Omit<ProductCard, 'code' | 'name' | 'kind' | 'own'>),
        code,
        name,
        kind,
        own: true,
      },
    ]),
  );
  const away = new Set(rows.filter(({ active }) => active === 0).map(({ code }) => code));
  const supplied = SUPPLIED.map((card) => own.get(card.code) ?? { ...card, own: false });
  const added = [...own.values()].filter(({ code }) => !SUPPLIED.some((one) => one.code === code));
  return [...supplied, ...added].filter(({ code }) => !away.has(code));
}
