/** Groups of an owner's report: distributions and sums, worked out by PostgreSQL. */
import type { Rows, Server } from '../server/server.ts';
import type { OwnerAsks } from './asked.ts';
import { conditionsOf, MEASURE_SQL } from './measures.ts';

/** More groups make no readable chart; a season or a species narrows them. */
const MOST_GROUPS = 200;

/** A distribution as `core/stats/distribution-summary` has it, and the sample standard deviation; null for a single value. */
export interface Spread {
  n: number;
  low: number;
  q1: number;
  median: number;
  q3: number;
  high: number;
  mean: number;
  sd: number | null;
}

export interface OwnerGroup {
  shop: number;
  /** Null unless the groups are of one season each. */
  season: number | null;
  /** Code of the species, likewise. */
  species: string | null;
  /** Of money. */
  currency: string | null;
  /** Rows of the view: animals, batches, bills, quotes. */
  n: number;
  /** Of those that have the figure; null without any, and of backlog. */
  spread: Spread | null;
  /** Sums: grams, minor units, hours or counts, by name. */
  facts: Readonly<Record<string, number>>;
}

/** Which groups there are, shop by shop; `more` where there were too many. */
export async function ownerGroups(
  server: Server,
  asks: OwnerAsks,
): Promise<{ groups: OwnerGroup[]; more: boolean }> {
  const rows = asks.measure === 'backlog' ? await backlogRows(server, asks) : await spreadRows(server, asks);
  return { groups: rows.slice(0, MOST_GROUPS), more: rows.length > MOST_GROUPS };
}

async function spreadRows(server: Server, asks: OwnerAsks): Promise<OwnerGroup[]> {
  const { measure, split } = asks;
  const { view, value, facts } = MEASURE_SQL[measure];
  const { where, values } = conditionsOf(asks);
  const names = Object.keys(facts);
  const ofSpecies = split === 'species' && measure === 'fat';
  const species = ofSpecies ? 'of_species' : 'species';
  const found = await server.rows(
    `SELECT shop, ${split === 'season' ? 'season' : 'NULL'}, ${split === 'species' ? species : 'NULL'},
       ${measure === 'money' ? 'currency' : 'NULL'}, count(*), count(x), min(x),
       percentile_cont(0.25) WITHIN GROUP (ORDER BY x), percentile_cont(0.5) WITHIN GROUP (ORDER BY x),
       percentile_cont(0.75) WITHIN GROUP (ORDER BY x), max(x), avg(x), stddev_samp(x)${names.map((name) => `, ${facts[name]}`).join('')}
     FROM (SELECT *, ${value} AS x FROM ledger.${view} WHERE ${where}) r${ofSpecies ? ' CROSS JOIN unnest(species) AS of_species' : ''}
     GROUP BY 1, 2, 3, 4 ORDER BY 1, 2, 3, 4 LIMIT ${MOST_GROUPS + 1}`,
    values,
  );
  return found.map((row) => {
    const [shop, season, code, currency, n, ofValues, low, q1, median, q3, high, mean, sd, ...sums] = row;
    return {
      ...keyOf([shop, season, code, currency]),
      n: Number(n),
      spread:
        Number(ofValues) === 0
          ? null
          : {
              n: Number(ofValues), low: Number(low), q1: Number(q1), median: Number(median), q3: Number(q3),
              high: Number(high), mean: Number(mean), sd: sd === null ? null : Number(sd),
            }, // prettier-ignore
      facts: named(names, sums),
    };
  });
}

/** Hours of several seasons add up; those of species do not, so they have a view of their own. */
async function backlogRows(server: Server, asks: OwnerAsks): Promise<OwnerGroup[]> {
  const bySpecies = asks.split === 'species' || asks.species !== undefined;
  const { where, values } = conditionsOf(asks);
  const names = ['hours', 'trimGrams', 'grindHours', 'unweighed', 'grams', 'ownMinutes'];
  const found = await server.rows(
    `SELECT shop, ${asks.split === 'season' ? 'season' : 'NULL'}, ${asks.split === 'species' ? 'species' : 'NULL'}, NULL,
       sum(animals)::bigint, sum(cut_hours), sum(trim_grams), sum(grind_hours), sum(unweighed)::bigint, sum(expected_grams),
       bool_and(own_minutes)::integer
     FROM ledger.backlog_by_${bySpecies ? 'species' : 'shop'} WHERE ${where} GROUP BY 1, 2, 3 ORDER BY 1, 2, 3 LIMIT ${MOST_GROUPS + 1}`,
    values,
  );
  return found.map(([shop, season, code, currency, n, ...sums]) => ({
    ...keyOf([shop, season, code, currency]),
    n: Number(n),
    spread: null,
    facts: named(names, sums),
  }));
}

function keyOf([shop, season, species, currency]: Rows[number]): Pick<
  OwnerGroup,
  'shop' | 'season' | 'species' | 'currency'
> {
  return {
    shop: Number(shop),
    season: season === null ? null : Number(season),
    species: species === null ? null : String(species),
    currency: currency === null ? null : String(currency),
  };
}

const named = (names: readonly string[], values: Rows[number]): Record<string, number> =>
  Object.fromEntries(names.map((name, i) => [name, Number(values[i])]));
