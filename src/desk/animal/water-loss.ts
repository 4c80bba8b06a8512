/** Products that weigh less when they are done: water goes in the smoker or the dryer. */
import type { Session } from '../session/session.ts';
import { productNamed } from './product-named.ts';

/** Supplied sausages that are smoked or dried; jerky of any kind is. */
const SMOKED: ReadonlySet<string> = new Set(['summer-sausage', 'snack-sticks']);
/** A name that the shop's list does not have may say it. */
const SAYS_SO = /jerky|smoked|dried|snack stick|summer sausage|landj/i;

/** @param product its name, as it stands on a batch or a package */
export function losesWater(session: Session, product: string): boolean {
  const known = productNamed(session, product);
  return known?.kind === 'jerky' || SMOKED.has(known?.code ?? '') || SAYS_SO.test(product);
}
