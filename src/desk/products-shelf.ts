/** What the shop makes: the supplied products, and its own beside or in place of them. */
import suppliedJson from '../../resources/products.json' with { type: 'json' };
import type { DeskRoom } from './room.ts';
import type { ProductCard, ProductKind, ProductOnShelf } from './shapes.ts';

/** What a product is beside its name, as the book keeps it. */
export type ProductBody = Omit<ProductCard, 'code' | 'name' | 'kind' | 'own'>;

const KINDS: readonly ProductKind[] = ['whole cuts', 'grind', 'sausage', 'jerky', 'other'];
const SUPPLIED = suppliedJson as readonly Omit<ProductCard, 'own'>[];

/** Products by kind, each kind in the order of the supplied list with the shop's own after them. */
export function productsOnShelf(room: DeskRoom): ProductOnShelf[] {
  const rows = new Map(room.book.products.all().map((row) => [row.code, row]));
  const supplied = SUPPLIED.map((card): ProductOnShelf => {
    const row = rows.get(card.code);
    rows.delete(card.code);
    const changed = row ? (JSON.parse(row.body) as ProductBody | null) : null;
    return {
      ...card,
      ...(row && changed && { ...changed, name: row.name, kind: row.kind }),
      own: changed !== null,
      supplied: true,
      offered: row?.active !== 0,
    };
  });
  const own = [...rows.values()].map(({ code, name, kind, body, active }): ProductOnShelf => ({
    ...(JSON.parse(body) as ProductBody),
    code,
    name,
    kind,
    own: true,
    supplied: false,
    offered: active === 1,
  }));
  const every = [...supplied, ...own];
  return KINDS.flatMap((kind) => every.filter((one) => one.kind === kind));
}

/** Products on offer. */
export function productCards(room: DeskRoom): ProductCard[] {
  return productsOnShelf(room).filter(({ offered }) => offered);
}
