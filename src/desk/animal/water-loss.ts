/** Products that lose water in the smoker or the dryer. */
import type { Session } from '../session/session.ts';
import { productNamed } from './product-named.ts';

/** Supplied sausages that are smoked or dried, besides jerky. */
const SMOKED: ReadonlySet<string> = new Set(['summer-sausage', 'snack-sticks']);
/** Names outside the shop's list that imply smoking or drying. */
const SAYS_SO = /jerky|smoked|dried|snack stick|summer sausage|landj/i;

/** @param product the name on a batch or package */
export function losesWater(session: Session, product: string): boolean {
  const known = productNamed(session, product);
  return known?.kind === 'jerky' || SMOKED.has(known?.code ?? '') || SAYS_SO.test(product);
}
