/** Where the hanging weight went, for the animals with every part weighed. */
import type { SumFilter } from '../../book/sums/season-filter.ts';
import type { SeasonRow } from '../../book/sums/season-rows.ts';
import { isWeighedWhole, poundSums, type PoundSums } from './pound-sums.ts';
import { losesWater } from '../animal/water-loss.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import type { Session } from '../session/session.ts';
import { bySpecies, chosenRows, isDone, seasonFilter, sumsOf } from '../session/season-filter.ts';
import type { CutPart, LossKind, PoundsReport } from '../contract/contract.ts';

const PARTS: Readonly<Record<CutPart, keyof PoundSums>> = {
  'whole cuts': 'whole_cuts',
  trim: 'trim',
  'fat saved': 'fat_saved',
  bone: 'bone',
  sinew: 'sinew',
  damage: 'damage',
};
const GRAMS_PER_KG = 1000;

export const pounds = readAfterLearning(seasonFilter, (session, input): PoundsReport => {
  const filter = sumsOf(session, input);
  const rows = chosenRows(session, filter);
  const of = bySpecies(rows).flatMap(([code, all]) => {
    const own = all.filter(isWeighedWhole);
    const sums = own.length > 0 ? poundSums(own, mostShrink(session, code)) : null;
    return sums ? [{ code, name: session.species.of(code).name, sums }] : [];
  });
  const total = (key: keyof PoundSums): number => of.reduce((all, { sums }) => all + sums[key], 0);
  const ground = cachedOfBatches(session, filter, 'ground', () => session.book.seasonPounds.ground(filter));
  const inAll = (key: 'batches' | 'own' | 'bought' | 'added' | 'out'): number =>
    ground.reduce((all, one) => all + one[key], 0);
  const lossOf = (dried: boolean): number => {
    const of = ground.filter(({ product }) => losesWater(session, product) === dried);
    return Math.max(
      0,
      of.reduce((all, { own, bought, added, out }) => all + own + bought + added - out, 0),
    );
  };
  const [lossGrams, driedGrams] = [lossOf(false), lossOf(true)];
  const income = incomeOf(session, filter.season);
  const minorPerKg = income.grams > 0 ? income.minor / (income.grams / GRAMS_PER_KG) : null;
  const base = total('base');
  const losses: [LossKind, number][] = [
    ['bone', total('bone')],
    ['sinew', total('sinew')],
    ['damage', total('damage')],
    ['shrink', total('shrink')],
    ['unexplained', total('unexplained')],
    ['grinder', lossGrams],
    ['smokehouse', driedGrams],
  ];
  return {
    season: filter.season,
    n: total('n'),
    others: rows.filter((row) => isDone(row.stage) && !isWeighedWhole(row)).length,
    baseGrams: base,
    parts: (Object.keys(PARTS) as CutPart[]).map((part) => ({ part, grams: total(PARTS[part]) })),
    shrinkGrams: total('shrink'),
    damageUnknown: total('damage_unknown'),
    unexplainedGrams: total('unexplained'),
    overGrams: total('over'),
    grinder: {
      batches: inAll('batches'),
      inGrams: inAll('own'),
      fatGrams: inAll('bought'),
      addedGrams: inAll('added'),
      outGrams: inAll('out'),
      lossGrams,
      driedGrams,
    },
    made: cachedOfBatches(session, filter, 'made', () => session.book.seasonMade.of(filter)).map((one) => ({
      product: one.product,
      batches: one.batches,
      blockGrams: one.block,
      addedGrams: one.added,
      packedGrams: one.packed,
      heatGrams: one.heat,
      leftGrams: one.rest,
    })),
    packedGrams: total('packed') + inAll('out'),
    minorPerKg,
    losses: losses
      .filter(([, grams]) => grams > 0)
      .map(([what, grams]) => ({
        what,
        grams,
        share: grams / (base + total('over')),
        minor: minorPerKg === null ? null : Math.round((grams / GRAMS_PER_KG) * minorPerKg),
      }))
      .sort((a, b) => b.grams - a.grams),
    species: of.map(({ code, name, sums }) => ({
      code,
      name,
      n: sums.n,
      baseGrams: sums.base,
      shares: sharesOf(sums),
    })),
  };
});

/** Of all that was weighed off the hook or is explained, so that they add to one also where parts outweigh their animals. */
function sharesOf(sums: PoundSums): PoundsReport['species'][number]['shares'] {
  const share = (grams: number): number => grams / (sums.base + sums.over);
  return {
    'whole cuts': share(sums.whole_cuts),
    trim: share(sums.trim),
    'fat saved': share(sums.fat_saved),
    bone: share(sums.bone),
    sinew: share(sums.sinew),
    damage: share(sums.damage),
    shrink: share(sums.shrink),
    unexplained: share(sums.unexplained),
  };
}

/** The 95th percentile of shrink as a share of the hanging weight of the species. */
function mostShrink(session: Session, species: string): number {
  return session.yields.share({ species, brought: 'skinned' }, 'shrink').high;
}

/** What depends on grinds and made batches besides the season's animals. */
function cachedOfBatches<T>(
  session: Session,
  filter: SumFilter & { season: number },
  what: string,
  work: () => T,
): T {
  const versions = (['grind', 'made', 'recipe'] as const).map((topic) => session.book.changes.version(topic));
  return session.cached('animal', filter.season, `${what} ${JSON.stringify([filter, versions])}`, work);
}

/** The revenue of the season's valid bills before tax, and the take-home of their animals. */
function incomeOf(session: Session, season: number): { minor: number; grams: number } {
  const { currency } = session.settings;
  const bills = session.book.changes.seasonVersion('money', season);
  return session.cached('animal', season, `income in ${currency} by bills ${bills}`, () =>
    sumIncome(session, season, currency),
  );
}

function sumIncome(session: Session, season: number, currency: string): { minor: number; grams: number } {
  const billed = session.cached('money', season, `billed in ${currency}`, () =>
    session.book.seasonPounds.billed(season, currency),
  );
  const byId = new Map<number, SeasonRow>(session.book.seasonRows(season).map((row) => [row.animal_id, row]));
  const income = { minor: 0, grams: 0 };
  for (const { animal_id: id, minor } of billed) {
    const grams = byId.get(id)?.take_home ?? 0;
    if (grams <= 0) continue;
    income.minor += minor;
    income.grams += grams;
  }
  return income;
}
