/** Products that lose water in the smoker or the dryer. */
import type { Session } from '../session/session.ts';
import { productNamed } from './product-named.ts';

/** Supplied sausages that are smoked or dried, besides jerky. */
const SMOKED: ReadonlySet<string> = new Set(['summer-sausage', 'snack-sticks']);
/** Names outside the shop's list that imply smoking or drying. */
const SAYS_SO = /jerky|smoked|dried|snack stick|summer sausage|landj/i;

/** By a recipe for it, else by its name. @param product the name on a batch or package */
export function losesWater(session: Session, product: string): boolean {
  const known = productNamed(session, product);
  const made = session.book.recipes.all().some((row) => row.product === product && isHeated(row.body));
  return made || known?.kind === 'jerky' || SMOKED.has(known?.code ?? '') || SAYS_SO.test(product);
}

/** Whether a recipe is cooked or dried. */
const isHeated = (body: string): boolean => (JSON.parse(body) as { finish: string }).finish !== 'raw';
