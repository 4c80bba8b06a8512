/** The content of package labels, built from package weights; packages weighed together form one run. */
import type { AnimalPage, BatchPage, ProductKind } from '../../bridge/contract.ts';
import { text as labelText } from '../../words/compiled/window/labels.ts';
import { inLanguage } from '../../words/area.ts';
import type { Language } from '../../words/languages.ts';
import { currentLanguage } from '../../words/speech.ts';
import { cookedHere } from './cooked-here.ts';
import { weighedIngredients, type MadeFrom } from './ingredients.ts';
import { localDay } from './local-day.ts';
import { netWeight } from './net-weight.ts';

/** One label with all its lines of text. */
export interface PackageLabel {
  product: string;
  species: string;
  ticket: string;
  hunter: string;
  net: string;
  /** Shown beside the net weight if it is the average of packages weighed together. */
  average: string | null;
  packed: string;
  batch: string | null;
  /** Ingredients in order of weight, or null for meat only. */
  ingredients: string[] | null;
  /** The cooking temperature; null if the shop has cooked or dried it. */
  cook: string | null;
  notForSale: boolean;
  /** Lines of a product of the smokehouse, first how to keep it; they replace those of raw meat. */
  made?: string[];
  /** Of its texts. Default: that of the window. */
  language?: Language | undefined;
  /** What is printed, once in each of its languages. Default: the label itself. */
  printed?: readonly PackageLabel[];
}

/** A number of identical labels. */
export interface LabelRun {
  key: string;
  label: PackageLabel;
  copies: number;
}

/** The shop's formatting. */
export interface Writing {
  unit: 'lb' | 'kg';
  locale: string;
  zone: string;
  longDay(date: string): string;
  /** Default: that of the window. */
  language?: Language;
  /** The kind of the product with this name in the shop's list. */
  kindOf(product: string): ProductKind | undefined;
}

/** The words of labels in a language, else in the window's. */
const wordsIn = ({ language = currentLanguage() }: { language?: Language | undefined }) =>
  inLanguage(labelText, language);

/** The fields of an animal that labels show. */
type LabelAnimal = Pick<AnimalPage, 'ticket' | 'origin' | 'species' | 'weighings'> & {
  hunter: { name: string };
};
/** A batch, the fat on hand, and the animals whose trim it contains. */
export interface BatchMade extends MadeFrom {
  batch: Pick<BatchPage, 'id' | 'name' | 'species' | 'weighedIn' | 'packages' | 'owners' | 'cookTo'>;
  animals: readonly LabelAnimal[];
}

/** Labels of the whole cuts of one animal; for its ground meat see `batchRuns`. */
export function cutRuns(animal: LabelAnimal, writing: Writing): LabelRun[] {
  return animal.weighings
    .filter((row) => row.stage === 'packed' && row.batch === null && row.voided === null)
    .map((row) => ({
      key: `cut ${row.id}`,
      copies: Math.max(1, row.count ?? 1),
      label: {
        product: row.product ?? '',
        species: animal.species.name,
        ticket: animal.ticket,
        hunter: animal.hunter.name,
        ...weight(row.grams, Math.max(1, row.count ?? 1), writing),
        packed: packedOn(row.at, writing),
        batch: null,
        ingredients: null,
        cook: cookOf(row.product ?? '', animal.species.cookTo, writing),
        notForSale: animal.origin === 'hunter',
        language: writing.language,
      },
    }));
}

/**
 * Labels of a batch. Each owner gets the number of packages that the desk assigned, taken in the order of packing, so
 * that every package has exactly one label. If it contains a hunter's animal, all of it is not for sale.
 */
export function batchRuns(made: BatchMade, writing: Writing): LabelRun[] {
  const { batch } = made;
  const names = weighedIngredients(made, wordsIn(writing));
  const whose = shares(batch);
  return whose.map(({ pack, owner, copies }) => ({
    key: `batch ${batch.id} ${pack.id} ${owner.ticket}`,
    copies,
    label: {
      product: pack.product,
      species: batch.species.join(' + '),
      ticket: owner.ticket,
      hunter: owner.hunter,
      ...weight(pack.grams, Math.max(1, pack.count), writing),
      packed: packedOn(pack.at, writing),
      batch: batch.name,
      ingredients: names.length > 1 ? names : null,
      cook: cookOf(pack.product, batch.cookTo, writing),
      notForSale: made.animals.some(({ origin }) => origin === 'hunter'),
      language: writing.language,
    },
  }));
}

/** Assigns the packages to the owners one by one, in the order of packing. */
export function shares<Pack extends { count: number }, Owner extends { packages: number }>({
  packages,
  owners,
}: {
  packages: readonly Pack[];
  owners: readonly Owner[];
}): { pack: Pack; owner: Owner; copies: number }[] {
  const left = packages.map(({ count }) => count);
  return owners.flatMap((owner) => {
    let due = owner.packages;
    return packages.flatMap((pack, i) => {
      const copies = Math.min(due, left[i] ?? 0);
      due -= copies;
      left[i] = (left[i] ?? 0) - copies;
      return copies > 0 ? [{ pack, owner, copies }] : [];
    });
  });
}

/** The weight of one of `count` packages, marked as an average if there are several. */
export function weight(
  grams: number,
  count: number,
  writing: Writing,
): Pick<PackageLabel, 'net' | 'average'> {
  const text = wordsIn(writing);
  const { shop, other } = netWeight(grams / count, writing.unit, writing.locale);
  return { net: text.net({ shop, other }), average: count === 1 ? null : text.average({ count }) };
}

function cookOf(product: string, { f, c }: { f: number; c: number }, writing: Writing): string | null {
  return cookedHere(product, writing.kindOf(product)) ? null : wordsIn(writing).cook({ f, c });
}

/** The day of packing, in words. */
export function packedOn(at: string, writing: Writing): string {
  return wordsIn(writing).packed({ day: writing.longDay(localDay(at, writing.zone)) });
}
