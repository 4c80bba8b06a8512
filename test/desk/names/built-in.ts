/** Every name of a built-in thing that the program brings, with the key that its words have to stand under. */
import { COOLING_OPTIONS, LOSS_KINDS } from '../../../src/desk/supplied/smokehouse.ts';
import { CAUTIONS, EXAMPLE_PRICES, FATS, SPECIES } from '../../../src/desk/supplied/resources.ts';
import recipesJson from '../../../resources/recipes.json' with { type: 'json' };
import recordsJson from '../../../resources/record-fields.json' with { type: 'json' };
import productsJson from '../../../resources/products.json' with { type: 'json' };
import templatesJson from '../../../resources/instructions.json' with { type: 'json' };
import { text as orders } from '../../../src/words/compiled/window/orders.ts';
import { offeredReasons } from './offered-reasons.ts';
import { WHOLE_SIZES } from '../../../src/trade/offered.ts';
import { GROUND_PRODUCT, WHOLE_CUTS_PRODUCT } from '../../../src/trade/product.ts';

export interface BuiltIn {
  /** As the catalogue's keys; `*` where the name alone finds it. */
  key: string;
  name: string;
}

const named = (kind: string, { code, name }: { code: string; name: string }): BuiltIn => ({
  key: `${kind}.${code}`,
  name,
});
const any = (kind: string, name: string): BuiltIn => ({ key: `${kind}.*`, name });

export const BUILT_IN: readonly BuiltIn[] = [
  ...Object.entries(offeredReasons('en-US')).map(([code, name]) => named('reason', { code, name })),
  ...WHOLE_SIZES.map((code, at) => named('size', { code, name: Object.values(orders.wholeSizes)[at] ?? '' })),
  ...SPECIES.flatMap((species) => [
    { key: `species.${species.code}.name`, name: species.name },
    { key: `species.${species.code}.many`, name: species.many },
    ...Object.entries(species.words).map(([form, name]) => ({
      key: `species.${species.code}.${form}`,
      name,
    })),
    ...species.primals.map(({ name }) => any('primal', name)),
  ]),
  ...productsJson.map((one) => named('product', one)),
  any('product', GROUND_PRODUCT),
  any('product', WHOLE_CUTS_PRODUCT),
  ...FATS.map((one) => named('fat', one)),
  ...[...EXAMPLE_PRICES.lb, ...EXAMPLE_PRICES.kg].map(({ code, label }) =>
    named('price', { code, name: label }),
  ),
  ...templatesJson.flatMap(({ name, instructions }) => [
    any('template', name),
    any('product', instructions.grindProduct),
  ]),
  ...recipesJson.ingredients.map((one) => named('ingredient', one)),
  ...recipesJson.recipes.flatMap((ready) => [
    named('recipe', ready),
    any('product', ready.product),
    any('recipeNote', ready.note),
    ...ready.body.meat.map(({ name }) => any('meat', name)),
    ...(ready.body.casing ? [any('casing', ready.body.casing.name)] : []),
    ...(ready.body.heat?.steps ?? []).map(({ what }) => any('step', what)),
  ]),
  ...CAUTIONS.flatMap(({ code, hazard, title, short, text, differs }) =>
    Object.entries({ hazard, title, ...(short && { short }), text, ...(differs && { differs }) }).map(
      ([form, name]) => ({
        key: `caution.${code}.${form}`,
        name,
      }),
    ),
  ),
  ...recordsJson.flatMap(({ code, place, keepFrom, also, source }) => [
    { key: `recordSet.${code}.place`, name: place },
    { key: `recordSet.${code}.keepFrom`, name: keepFrom },
    { key: `recordSet.${code}.also`, name: also },
    any('recordSet', source.confirmed),
  ]),
  ...LOSS_KINDS.map((one) => named('loss', one)),
  ...COOLING_OPTIONS.map((one) => named('cooling', one)),
];
