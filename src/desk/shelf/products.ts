/** The shop's own products, and changed supplied ones. */
import * as v from 'valibot';
import { codeOfName } from '../input/code-of-name.ts';
import { by, needed, packageGrams, pattyGrams, targetFat, text, typed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import { productsOnShelf, type ProductBody } from '../pricing/products-shelf.ts';
import { requireFatChoice } from '../supplied/resources.ts';
import type { Session } from '../session/session.ts';
import type { ProductOnShelf } from '../contract/contract.ts';
import { typedGrams } from '../input/typed-grams.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';
import { PRODUCT_KINDS } from '../../trade/product.ts';

const NOTHING: ProductBody = {
  fat: null,
  targetFat: null,
  packageGrams: null,
  pattyGrams: null,
  ingredients: '',
};

/**
 * Adds a product, or changes one; what is left out stays as it is, and what is put away stays away. A new one with the
 * name of one put away brings that back. @throws ValidationError `reading.*`; ProblemError `product.taken`, `product.unknown`, `product.fat`, `fat.unknown`,
 * `package.size`, `patty.size`, `product.too-many` (refused)
 */
export const save = write(
  v.object({
    /** Absent for a new product. */
    code: v.optional(needed(60)),
    name: needed(60),
    kind: v.optional(v.picklist(PRODUCT_KINDS, 'choice.product')),
    fat: v.optional(v.nullable(needed(40))),
    targetFat: v.optional(targetFat),
    /** Weights as typed; empty: none. */
    packageTyped: v.optional(typed),
    pattyTyped: v.optional(typed),
    ingredients: v.optional(text(300)),
    by,
  }),
  (session, input): ProductOnShelf => {
    const every = productsOnShelf(session);
    const same = every.find(({ name }) => name.toLowerCase() === input.name.toLowerCase());
    const before =
      input.code === undefined ? (same?.offered ? undefined : same) : productOf(session, input.code);
    if (same && same.code !== before?.code)
      throw new ProblemError('invalid', 'product.taken', { field: 'name', with: { name: same.name } });
    if (!before) refuseMoreOfShop('product', every.length);
    const codes = every.map((one) => one.code);
    const product = {
      code: before?.code ?? codeOfName(input.name, codes, 'product'),
      name: input.name,
      kind: input.kind ?? before?.kind ?? 'other',
      body: bodyOf(session, input, before ?? NOTHING),
      active: input.code === undefined || before?.offered !== false,
    };
    session.book.products.put(product);
    const { code } = product;
    session.book.audit.note({
      record: 'product', recordId: code, act: before ? 'change' : 'add', ...(before && { before }), after: product,
      at: session.now(), by: input.by,
    }); // prettier-ignore
    return productOf(session, code);
  },
);

const which = v.object({ code: needed(60), by });

/** Archives a product. Existing packages and orders of it stay. @throws ProblemError `product.unknown` */
export const archive = write(which, (session, { code, by: initials }) =>
  setActive(session, code, false, initials),
);

/** @throws ProblemError `product.unknown` */
export const restore = write(which, (session, { code, by: initials }) =>
  setActive(session, code, true, initials),
);

function setActive(session: Session, code: string, offered: boolean, initials: string): ProductOnShelf {
  const { name, kind, own, fat, targetFat: target, packageGrams: pack, pattyGrams: patty, ingredients } = productOf(session, code); // prettier-ignore
  const body = own ? { fat, targetFat: target, packageGrams: pack, pattyGrams: patty, ingredients } : null;
  session.book.products.put({ code, name, kind, body, active: offered });
  session.book.audit.note({
    record: 'product', recordId: code, act: 'change', after: { offered }, at: session.now(), by: initials,
  }); // prettier-ignore
  return productOf(session, code);
}

function productOf(session: Session, code: string): ProductOnShelf {
  const found = productsOnShelf(session).find((one) => one.code === code);
  if (!found) throw new ProblemError('missing', 'product.unknown', { field: 'code' });
  return found;
}

type Input = Partial<Pick<ProductBody, 'fat' | 'targetFat' | 'ingredients'>> & {
  packageTyped?: string | undefined;
  pattyTyped?: string | undefined;
};

function bodyOf(session: Session, input: Input, before: ProductBody): ProductBody {
  const fat = input.fat === undefined ? before.fat : input.fat;
  if (fat !== null) requireFatChoice(fat);
  const target = input.targetFat === undefined ? before.targetFat : input.targetFat;
  if (target !== null && (fat === null || fat === 'none'))
    throw new ProblemError('invalid', 'product.fat', { field: 'fat' });
  const grams = (typedText: string | undefined, field: string, now: number | null): number | null => {
    if (typedText === undefined) return now;
    return typedText.trim() === '' ? null : typedGrams(typedText, session.settings.unit, field);
  };
  const pack = grams(input.packageTyped, 'packageTyped', before.packageGrams);
  const patty = grams(input.pattyTyped, 'pattyTyped', before.pattyGrams);
  if (!v.is(v.nullable(packageGrams), pack))
    throw new ProblemError('invalid', 'package.size', { field: 'packageTyped' });
  if (!v.is(pattyGrams, patty)) throw new ProblemError('invalid', 'patty.size', { field: 'pattyTyped' });
  return {
    fat,
    targetFat: target,
    packageGrams: pack,
    pattyGrams: patty,
    ingredients: input.ingredients ?? before.ingredients,
  };
}
