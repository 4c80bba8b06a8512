/** Fat through a season's grinds: ordered, planned, weighed in and tested, by source and by species. */
import type { BatchSource } from '../../book/sums/season-fat.ts';
import { individualsChart } from '../../core/stats/control-chart.ts';
import { fatSpent } from '../costing/fat.ts';
import { fatOfSource } from '../learning/fat-estimates.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import type { Session } from '../session/session.ts';
import { seasonFilter, sumsOf } from '../session/season-filter.ts';
import { gramsOf, speciesFat, type FilledBatch } from './fat-species.ts';
import type { FatBatch, FatCounts, FatReport } from '../contract/contract.ts';

/** Fewer tests do not give meaningful limits. Common practice, no source. */
const MIN_TESTS = 5;
/**
 * A batch within a point of its target is on it: a shop's scale and trim allow no better. Common practice, no
 * source.
 */
const ON_TARGET = 0.01;
/** Maximum length of a readable table. */
const MAX_LISTED = 500;

export const fat = readAfterLearning(
  seasonFilter,
  (session, input): FatReport => {
    const filter = sumsOf(session, input);
    const rowsOf = Map.groupBy(session.book.seasonFat.sources(filter), ({ batch }) => batch);
    const batches = session.book.seasonFat.batches(filter).map((batch): FilledBatch => {
      const rows = rowsOf.get(batch.id) ?? [];
      return { ...batch, rows, weighedIn: weighedIn(session, batch.id, rows) };
    });
    const rows = batches.flatMap((batch) => batch.rows);
    const { animals, saved, ground } = session.book.seasonFat.saved(filter);
    return {
      season: filter.season,
      batches: listed(session, batches.slice(-MAX_LISTED)),
      counts: countsOf(batches),
      control: controlOf(batches),
      sources: sourcesOf(rows),
      saved: {
        savedGrams: saved,
        ownUsedGrams: ground,
        boughtGrams: gramsOf(rows.filter(({ animal_id: id }) => id === null)),
        animals,
      },
      species: speciesFat(session, batches, filter.species),
    };
  },
  { models: ['fats'] },
);

/** Fat of the weighed sources, by the estimates before the batch's own tests; null without any. */
function weighedIn(session: Session, batchId: number, rows: readonly BatchSource[]): number | null {
  const grams = gramsOf(rows);
  if (grams === 0) return null;
  const estimates = session.fats.before(batchId);
  return rows.reduce((total, row) => total + row.grams * fatOfSource(estimates, row).mean, 0) / grams;
}

function listed(session: Session, batches: readonly FilledBatch[]): FatBatch[] {
  const species = session.book.seasonFat.species(batches.map(({ id }) => id));
  return batches.map((batch) => ({
    id: batch.id,
    name: batch.name,
    on: batch.started_on,
    product: batch.product,
    target: batch.target_fat,
    planned: batch.planned,
    weighedIn: batch.weighedIn,
    tested: batch.tested,
    species: (species.get(batch.id) ?? []).map((code) => session.species.of(code).name),
  }));
}

function countsOf(batches: readonly FilledBatch[]): FatCounts {
  const off = batches.flatMap(({ target_fat: target, weighedIn: fatIn }) =>
    target === null || fatIn === null ? [] : [Math.abs(fatIn - target)],
  );
  const gaps = batches.flatMap(({ tested, weighedIn: fatIn }) =>
    tested === null || fatIn === null ? [] : [tested - fatIn],
  );
  return {
    batches: batches.length,
    withTarget: off.length,
    // Exactly one point off is on target, despite rounding.
    onTarget: off.filter((points) => points <= ON_TARGET + 1e-9).length,
    tested: batches.filter(({ tested }) => tested !== null).length,
    testedWithTarget: batches.filter(({ tested, target_fat: target }) => tested !== null && target !== null)
      .length,
    gap:
      gaps.length === 0
        ? null
        : { n: gaps.length, mean: gaps.reduce((total, gap) => total + gap, 0) / gaps.length },
  };
}

/** A test is compared with its target, so that batches of different targets share one chart. */
function controlOf(batches: readonly FilledBatch[]): FatReport['control'] {
  const tests = batches.flatMap(({ id, name, tested, target_fat: target }) =>
    tested === null || target === null ? [] : [{ id, name, off: tested - target }],
  );
  if (tests.length < MIN_TESTS) return null;
  const { centre, lower, upper, outside } = individualsChart(tests.map(({ off }) => off));
  return {
    centre,
    lower,
    upper,
    outside: outside.flatMap((at) => {
      const test = tests[at];
      return test ? [{ id: test.id, name: test.name }] : [];
    }),
  };
}

/** Fat by source; all of the animals' own fat is one source. */
function sourcesOf(rows: readonly BatchSource[]): FatReport['sources'] {
  const fats = rows.flatMap((row) =>
    row.fat_lot_id === null
      ? []
      : [
          {
            ...row,
            lot_id: row.fat_lot_id,
            product: '',
            key: row.animal_id === null ? (row.lot_source ?? '') : 'own',
          },
        ],
  );
  return [...Map.groupBy(fats, ({ key }) => key)]
    .map(([source, of]) => {
      const { cost, lots } = fatSpent(of);
      return {
        source,
        name: of.at(-1)?.lot_name ?? source,
        grams: gramsOf(of),
        batches: new Set(of.map(({ batch }) => batch)).size,
        costMinor: source === 'own' || lots === 0 ? null : Math.round(cost),
      };
    })
    .sort((a, b) => b.grams - a.grams || a.source.localeCompare(b.source));
}
