/** What a product's name on a package or a batch implies about how it was made. */
import suppliedJson from '../../../resources/products.json' with { type: 'json' };
import type { ProductKind } from '../../trade/product.ts';
import type { Session } from '../session/session.ts';

interface Named {
  code: string;
  name: string;
  kind: ProductKind;
  /** Fat mixed in; `none`; or null if each hunter chooses. */
  fat: string | null;
}

const SUPPLIED = suppliedJson as unknown as readonly Named[];
/** Names outside the shop's list that imply a ground product. */
const SAYS_GROUND = /ground|grind|burger|patt(y|ies)|sausage|brat|links|stick|chili|salami|bologna|chorizo|kielbasa|hot dog|wiener|frank|meatball|meatloaf|landj/i; // prettier-ignore

/** The shop's own or supplied product of this name, or undefined. */
export function productNamed(session: Session, product: string): Named | undefined {
  const name = product.trim().toLowerCase();
  const own = session.book.products.all().find((one) => one.name.toLowerCase() === name);
  const supplied = SUPPLIED.find((one) => one.name.toLowerCase() === name);
  if (!own) return supplied;
  const body = JSON.parse(own.body) as { fat?: string | null } | null;
  return { ...own, fat: (body ?? supplied)?.fat ?? null };
}

/** Whether a product is ground; each name is looked up once. */
export function groundProducts(session: Session): (product: string) => boolean {
  const known = new Map<string, boolean>();
  return (product) => {
    const before = known.get(product);
    if (before !== undefined) return before;
    const kind = productNamed(session, product)?.kind;
    const ground = kind === 'grind' || kind === 'sausage' || SAYS_GROUND.test(product);
    known.set(product, ground);
    return ground;
  };
}

/**
 * Whether pork or fat may have been added to a ground product, so that more comes out than was cut. A product outside
 * the shop's list may contain anything.
 */
export function mayHoldAdded(session: Session, product: string, orderedFat: string): boolean {
  const known = productNamed(session, product);
  return !known || known.kind === 'sausage' || (known.fat ?? orderedFat) !== 'none';
}
