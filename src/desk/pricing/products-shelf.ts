/** The shop's products: the supplied ones, and its own in addition or instead. */
import * as v from 'valibot';
import suppliedJson from '../../../resources/products.json' with { type: 'json' };
import type { Session } from '../session/session.ts';
import type { ProductCard, ProductOnShelf } from '../contract/contract.ts';
import { PRODUCT_KINDS } from '../../trade/product.ts';

/** Stored details of a product besides its name. */
export type ProductBody = Omit<ProductCard, 'code' | 'name' | 'kind' | 'own'>;

const SUPPLIED = suppliedJson as readonly Omit<ProductCard, 'own'>[];
/** Original names of supplied products, by code. */
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
/** For a product whose details cannot be read: it keeps its name. */
const EMPTY_BODY: ProductBody = {
  fat: null,
  targetFat: null,
  packageGrams: null,
  pattyGrams: null,
  ingredients: '',
};

/** Null for a supplied product that was only archived, and for invalid data. */
function bodyOf(body: string): ProductBody | null {
  const found = v.safeParse(bodySchema, JSON.parse(body));
  return found.success ? found.output : null;
}

/** Products by kind, in the order of the supplied list, followed by the shop's own. */
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
