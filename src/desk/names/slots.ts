/** Where built-in things stand in calls: the fields of inputs and answers that hold a name of one, and which names these are. */

/** Keys of names in the catalogue (`src/words/en-US/desk/names`); `*` is the code of the thing. `line`: a label of `line-labels.ts`. */
export type Slot =
  | `species.*.${'name' | 'many' | 'male' | 'female' | 'young'}`
  | `${'primal' | 'product' | 'template' | 'fat' | 'price' | 'priceBook'}.*`
  | `recordSet.*.${'place' | 'keepFrom' | 'also' | 'title' | 'confirmed'}`
  | `caution.*.${'hazard' | 'title' | 'short' | 'text' | 'differs'}`
  | 'line'
  | `${'reason' | 'size'}.*`
  | `${'ingredient' | 'recipe' | 'recipeNote' | 'meat' | 'casing' | 'step' | 'loss' | 'cooling'}.*`;

const SPECIES = ['species.*.name'] as const;
const PRODUCT = ['product.*'] as const;
/** A price line is often called like the product that it charges for. */
export const LINE = ['price.*', 'product.*', 'line'] as const;
const FAT = ['fat.*'] as const;
const INGREDIENT = ['ingredient.*'] as const;
const RECIPE = ['recipe.*'] as const;
const NOTE = ['recipeNote.*'] as const;

/**
 * By `FIELD` wherever it stands, or by `HOLDER.FIELD`, where the holder is the field that the object or the list of objects is in, or
 * the call's name for its own input or answer, or what a change of a history changed. Texts of a list go by the field of the list.
 */
const SLOTS: Readonly<Record<string, readonly Slot[]>> = {
  speciesName: SPECIES,
  species: SPECIES,
  hosts: SPECIES,
  'species.name': SPECIES,
  'speciesAway.name': SPECIES,
  'species.save.name': SPECIES,
  'waitOf.name': SPECIES,
  'paths.name': SPECIES,
  many: ['species.*.many'],
  'words.male': ['species.*.male'],
  'words.female': ['species.*.female'],
  'words.young': ['species.*.young'],
  'primals.name': ['primal.*'],
  'pieces.name': ['primal.*'],
  'with.primal': ['primal.*'],
  'facts.primal': ['primal.*'],
  'facts.fromPrimal': ['primal.*'],
  'piece.of': ['primal.*'],
  'pieces.primal': ['primal.*'],
  product: PRODUCT,
  grindProduct: PRODUCT,
  productName: PRODUCT,
  notMade: PRODUCT,
  notSplit: PRODUCT,
  batches: PRODUCT,
  'products.name': PRODUCT,
  'products.save.name': PRODUCT,
  'unpriced.name': ['product.*', 'price.*'],
  'templates.name': ['template.*'],
  'templates.save.name': ['template.*'],
  'templates.archive.name': ['template.*'],
  'templates.restore.name': ['template.*'],
  'fatSources.name': FAT,
  'fat.name': FAT,
  'fat.listLots.name': FAT,
  'sources.name': FAT,
  'shortFat.name': FAT,
  fatName: FAT,
  label: LINE,
  line: LINE,
  reason: ['reason.*'],
  'answered.answer': ['reason.*'],
  'animals.setStage.answer': ['reason.*'],
  'fat.listMovements.note': ['reason.*'],
  'primals.size': ['size.*'],
  'before.size': ['size.*'],
  'after.size': ['size.*'],
  'species.before': SPECIES,
  'species.after': SPECIES,
  'fat.before': FAT,
  'fat.after': FAT,
  'grindProduct.before': PRODUCT,
  'grindProduct.after': PRODUCT,
  'alsoGround.before': PRODUCT,
  'alsoGround.after': PRODUCT,
  'prices.get.name': ['priceBook.*'],
  'prices.save.name': ['priceBook.*'],
  recipe: RECIPE,
  'recipe.name': RECIPE,
  'recipes.name': RECIPE,
  'recipes.get.name': RECIPE,
  'recipes.save.name': RECIPE,
  'ready.name': RECIPE,
  'ready.note': NOTE,
  'body.note': NOTE,
  ingredients: INGREDIENT,
  'ingredients.name': ['ingredient.*', 'species.*.name', 'fat.*', 'meat.*'],
  'recipes.saveIngredient.name': INGREDIENT,
  'amounts.name': INGREDIENT,
  'weighed.name': INGREDIENT,
  'allergens.unknown': INGREDIENT,
  'contains.from': INGREDIENT,
  'with.cure': INGREDIENT,
  'with.ingredient': INGREDIENT,
  'with.name': ['product.*', 'recipe.*', 'ingredient.*', 'species.*.name', 'fat.*', 'template.*', 'price.*'],
  'meat.name': ['meat.*', 'species.*.name', 'fat.*'],
  'casing.name': ['casing.*'],
  'casings.name': ['casing.*'],
  'steps.what': ['step.*'],
  'recordSets.place': ['recordSet.*.place'],
  'recordSets.keepFrom': ['recordSet.*.keepFrom'],
  'recordSets.also': ['recordSet.*.also'],
  'source.title': ['recordSet.*.title'],
  'source.confirmed': ['recordSet.*.confirmed'],
  'cautions.hazard': ['caution.*.hazard'],
  'cautions.title': ['caution.*.title'],
  'cautions.short': ['caution.*.short'],
  'cautions.text': ['caution.*.text'],
  'cautions.differs': ['caution.*.differs'],
  'lossKinds.name': ['loss.*'],
  'assumed.name': ['loss.*'],
  'cooling.name': ['cooling.*'],
};

/** The last part of each key: most texts are in no field of these. */
const FIELDS: ReadonlySet<string> = new Set(
  Object.keys(SLOTS).map((key) => key.slice(key.lastIndexOf('.') + 1)),
);

/** The names that a text in this field may be; none for fields that hold no names. */
export function slotsOf(holder: string, field: string): readonly Slot[] {
  if (!FIELDS.has(field)) return [];
  return SLOTS[`${holder}.${field}`] ?? SLOTS[field] ?? [];
}
