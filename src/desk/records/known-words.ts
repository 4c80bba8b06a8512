import { USUAL_INSTRUCTIONS } from '../animal/instructions.ts';
import { productsOnShelf } from '../pricing/products-shelf.ts';
import type { Session } from '../session/session.ts';
import { FATS } from '../supplied/resources.ts';

/** Names from the program or the shop, which are not personal. */
export function knownWords(session: Session): string[] {
  return [
    ...productsOnShelf(session).flatMap(({ code, name }) => [code, name]),
    ...FATS.map(({ code }) => code),
    'own',
    'none',
    USUAL_INSTRUCTIONS.grindProduct,
  ];
}
