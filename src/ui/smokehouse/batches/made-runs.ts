/** Labels of a batch of the smokehouse: what it is, how it is kept, and never more than is proven. */
import type { LabelIngredient, MadeLabel, MadePage } from '../../../bridge/contract.ts';
import { packedOn, shares, weight, type LabelRun, type Writing } from '../../labels/package-label.ts';
import { text as batchText } from '../../../words/compiled/window/smokehouse-batch.ts';
import { inLanguage } from '../../../words/area.ts';
import { listText } from '../../../words/list.ts';
import { currentLanguage } from '../../../words/speech.ts';
import { allergenNames } from '../words.ts';

/** An ingredient with what it is made of: `Soy sauce (Water, Soybeans, Wheat, Salt)`. */
export function ingredientText({ name, parts }: LabelIngredient, language = currentLanguage()): string {
  const text = inLanguage(batchText, language);
  if (parts === 'unknown') return text.labelPartsUnknown({ name });
  if (parts.length === 0) return name;
  return text.labelParts({ name, parts: parts.map((part) => ingredientText(part, language)).join(', ') });
}

/** The lines below the ingredients, first what it is and how to keep it. What is not known is said, never left out. */
export function labelLines(
  { state, keep, cookTo, allergens, cure }: MadeLabel,
  language = currentLanguage(),
): string[] {
  const text = inLanguage(batchText, language);
  const agents = cure ? (['nitrite', 'nitrate', 'accelerator'] as const).filter((agent) => cure[agent]) : [];
  return [
    text.labelState({
      state: state === 'raw' ? 'other' : state,
      keep: keep === 'shelf-stable' ? 'other' : keep,
    }),
    cookTo ? text.labelCook(cookTo) : '',
    allergens.contains.length > 0
      ? text.labelContains({ names: allergenNames(allergens.contains, language) })
      : '',
    allergens.unknown.length > 0 ? text.labelUnknown({ names: allergens.unknown.join(', ') }) : '',
    agents.length > 0
      ? text.labelCure({
          agents: listText(
            agents.map((agent) => text[agent]),
            'comma',
            language,
          ),
        })
      : '',
  ].filter(Boolean);
}

/** One run for the packages weighed together that an owner gets. */
export function madeRuns(label: MadeLabel, { packs }: Pick<MadePage, 'packs'>, writing: Writing): LabelRun[] {
  return shares({ packages: packs, owners: label.owners }).map(({ pack, owner, copies }) => ({
    key: `made ${label.madeId} ${pack.id} ${owner.ticket}`,
    copies,
    label: {
      product: pack.product,
      species: label.species.join(' + '),
      ticket: owner.ticket,
      hunter: owner.hunter,
      ...weight(pack.grams, Math.max(1, pack.count), writing),
      packed: packedOn(pack.at, writing),
      batch: label.name,
      ingredients: label.ingredients.map((one) => ingredientText(one, writing.language)),
      cook: null,
      notForSale: label.notForSale,
      made: labelLines(label, writing.language),
      language: writing.language,
    },
  }));
}
