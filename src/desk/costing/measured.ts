/** What a season's own weighings show for each service; without any, an assumption. */
import type { SeasonFat, SeasonGrind } from '../../book/sums/season-money.ts';
import { median } from '../../core/stats/median.ts';
import { fatSpent } from './fat.ts';
import { ASSUMED } from './figures.ts';
import { pricesInForce } from '../pricing/prices.ts';
import type { Session } from '../session/session.ts';
import { groundNames, productTest } from './season-bills.ts';
import type { Measured, ServiceCode } from '../contract/contract.ts';

export type MeasuredService = Record<Measured['figure'], Measured>;

/** A grind with a larger output than input was mistyped and is not used. */
const MAX_OUT = 1.02;

/** @param fats bought fat of the season's grinds */
export function measure(
  session: Session,
  season: number,
  fats: readonly SeasonFat[],
): Record<ServiceCode, MeasuredService> {
  const isProduct = productTest(session, pricesInForce(session)?.lines ?? []);
  const grinds = session.book.seasonMoney
    .grinds(season)
    .filter(({ own, fat, added, out }) => own > 0 && out > fat && out <= (own + fat + added) * MAX_OUT);
  // As on the bill: a product with its own price is a product, all else counts as grind.
  const of = (code: 'grinding' | 'products'): MeasuredService => {
    const belongs = ({ product }: { product: string }): boolean =>
      isProduct(product) === (code === 'products');
    return measuredGrind(code, grinds.filter(belongs), fats.filter(belongs), fats);
  };
  return { cutting: measuredCutting(session, season), grinding: of('grinding'), products: of('products') };
}

function measuredCutting(session: Session, season: number): MeasuredService {
  const assumed = ASSUMED.cutting;
  const ground = groundNames(session);
  // Packages of ground products are no cuts.
  const cuts = new Map<number, number>();
  for (const { animal_id: id, product, grams } of session.book.seasonMoney.packed(season))
    if (!ground.has(product)) cuts.set(id, (cuts.get(id) ?? 0) + grams);
  const known = session.book
    .seasonRows(season)
    .flatMap(({ animal_id: id, finished, base, take_home: given }) =>
      finished === 1 && base !== null && given !== null && given > 0 && given < base
        ? [{ base, share: given / base, packed: Math.min(1, (cuts.get(id) ?? 0) / given) }]
        : [],
    );
  const share = median(known.map((one) => one.share));
  const figure = (name: Measured['figure'], value: number | null, assumption: number): Measured => ({
    figure: name,
    value: value ?? assumption,
    from: value === null ? 0 : known.length,
    of: 'animals',
  });
  return {
    received: figure('received', median(known.map(({ base }) => base)), assumed.receivedGrams),
    shrink: figure('shrink', share === null ? null : 1 - share, assumed.shrink),
    packedShare: figure('packedShare', median(known.map(({ packed }) => packed)), assumed.packedShare),
    ...noFat,
  };
}

/** No fat is bought for cutting. */
const noFat = {
  boughtFatShare: { figure: 'boughtFatShare', value: 0, from: 0, of: 'batches' },
  fatPerKg: { figure: 'fatPerKg', value: 0, from: 0, of: 'lots' },
} as const satisfies Partial<MeasuredService>;

/**
 * Weight and loss are medians over batches; bought fat is its share of the total output, because many batches have
 * none. All loss counts as the owner's meat, so that bought fat is the weighed-in amount.
 */
function measuredGrind(
  code: 'grinding' | 'products',
  grinds: readonly SeasonGrind[],
  used: readonly SeasonFat[],
  ofAny: readonly SeasonFat[],
): MeasuredService {
  const assumed = ASSUMED[code];
  const [fat, out] = [sum(grinds.map((one) => one.fat)), sum(grinds.map((one) => one.out))];
  const shrink = median(grinds.map((one) => Math.max(0, 1 - (one.out - one.fat) / one.own)));
  const figure = (name: Measured['figure'], value: number | null, assumption: number): Measured => ({
    figure: name,
    value: value ?? assumption,
    from: value === null ? 0 : grinds.length,
    of: 'batches',
  });
  return {
    received: figure('received', median(grinds.map(({ own }) => own)), assumed.receivedGrams),
    shrink: figure('shrink', shrink, assumed.shrink),
    packedShare: { figure: 'packedShare', value: 1, from: grinds.length, of: 'batches' },
    boughtFatShare: figure('boughtFatShare', out > 0 ? fat / out : null, assumed.boughtFatShare),
    fatPerKg: fatPrice(used, ofAny),
  };
}

/** The price per kilogram of the lots used; of all lots where none of these has a price. */
function fatPrice(used: readonly SeasonFat[], ofAny: readonly SeasonFat[]): Measured {
  const own = fatSpent(used);
  const spent = own.perKg === null ? fatSpent(ofAny) : own;
  return { figure: 'fatPerKg', value: spent.perKg ?? ASSUMED.fatPerKg, from: spent.lots, of: 'lots' };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, one) => total + one, 0);
}
