/** What the shop makes: the supplied products, and its own beside or in place of them. */
import * as v from 'valibot';
import suppliedJson from '../../../resources/products.json' with { type: 'json' };
import type { Session } from '../session/session.ts';
import type { ProductCard, ProductOnShelf } from '../contract/contract.ts';
import { PRODUCT_KINDS } from '../../trade/product.ts';

/** What a product is beside its name, as the book keeps it. */
export type ProductBody = Omit<ProductCard, 'code' | 'name' | 'kind' | 'own'>;

const SUPPLIED = suppliedJson as readonly Omit<ProductCard, 'own'>[];
/** The name under which each supplied product came, by code. */
export const suppliedNames: ReadonlyMap<string, string> = new Map(
  SUPPLIED.map(({ code, name }) => [code, name]),
);

const bodySchema = v.object({
  fat: v.nullable(v.string()),
  targetFat: v.nullable(v.number()),
  packageGrams: v.nullable(v.number()),
  pattyGrams: v.nullable(v.number()),
  ingredients: v.string(),
});
/** A product of whose details nothing can be read stays on the shelf under its name. */
const EMPTY_BODY: ProductBody = {
  fat: null,
  targetFat: null,
  packageGrams: null,
  pattyGrams: null,
  ingredients: '',
};

/** Null for a supplied product that was only put away, and for what makes no sense. */
function bodyOf(body: string): ProductBody | null {
  const found = v.safeParse(bodySchema, JSON.parse(body));
  return found.success ? found.output : null;
}

/** Products by kind, each kind in the order of the supplied list with the shop's own after them. */
export function productsOnShelf(session: Session): ProductOnShelf[] {
  const rows = new Map(session.book.products.all().map((row) => [row.code, row]));
  const supplied = SUPPLIED.map((card): ProductOnShelf => {
    const row = rows.get(card.code);
    rows.delete(card.code);
    const changed = row ? bodyOf(row.body) : null;
    return {
      ...card,
      ...(row && changed && { ...changed, name: row.name, kind: row.kind }),
      own: changed !== null,
      supplied: true,
      offered: row?.active !== 0,
    };
  });
  const own = [...rows.values()].map(({ code, name, kind, body, active }): ProductOnShelf => ({
    ...(bodyOf(body) ?? EMPTY_BODY),
    code,
    name,
    kind,
    own: true,
    supplied: false,
    offered: active === 1,
  }));
  const every = [...supplied, ...own];
  return PRODUCT_KINDS.flatMap((kind) => every.filter((one) => one.kind === kind));
}

/** Products on offer. */
export function productCards(session: Session): ProductCard[] {
  return productsOnShelf(session).filter(({ offered }) => offered);
}
