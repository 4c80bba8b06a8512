/** Products that weigh less when they are done: water goes in the smoker or the dryer. */
import suppliedJson from '../../../resources/products.json' with { type: 'json' };
import type { ProductKind } from '../../trade/product.ts';
import type { Session } from '../session/session.ts';

const PRODUCTS = suppliedJson as unknown as readonly { code: string; name: string; kind: ProductKind }[];

/** Supplied sausages that are smoked or dried; jerky of any kind is. */
const SMOKED: ReadonlySet<string> = new Set(['summer-sausage', 'snack-sticks']);
/** A name that the shop's list does not have may say it. */
const SAYS_SO = /jerky|smoked|dried|snack stick|summer sausage|landj/i;

/** @param product its name, as it stands on a batch or a package */
export function losesWater(session: Session, product: string): boolean {
  const name = product.trim().toLowerCase();
  const known =
    session.book.products.all().find((one) => one.name.toLowerCase() === name) ??
    PRODUCTS.find((one) => one.name.toLowerCase() === name);
  return known?.kind === 'jerky' || SMOKED.has(known?.code ?? '') || SAYS_SO.test(product);
}
