/** A wrong figure in the tables of heat and cooling must break the result that rests on it. */
import { describe, expect, it } from 'vitest';
import { isNear } from './nearness.ts';
import { heatResults, TABLES, type HeatTables } from './results/heat.ts';

const [table] = TABLES.lethality;
const [option] = TABLES.cooling;
if (!table || !option) throw new Error('no tables');

const row = (f: number, seconds: number): HeatTables => ({
  ...TABLES,
  lethality: [{ ...table, rows: table.rows.map((one) => (one.f === f ? { ...one, log65: seconds } : one)) }],
});
const comeUp = (minutes: number): HeatTables => ({
  ...TABLES,
  lethality: [{ ...table, comeUp: { ...table.comeUp, minutes } }],
});
const humidity = (code: string, change: object): HeatTables => ({
  ...TABLES,
  lethality: [{ ...table, humidity: table.humidity.map((one) => (one.code === code ? { ...one, ...change } : one)) }],
}); // prettier-ignore
const stage = (at: number, minutes: number): HeatTables => ({
  ...TABLES,
  cooling: [{ ...option, stages: option.stages.map((one, i) => (i === at ? { ...one, minutes } : one)) }],
});
const hours = (code: string, most: number): HeatTables => ({
  ...TABLES,
  degreeHours: TABLES.degreeHours.map((one) => (one.code === code ? { ...one, most } : one)),
});

const FAULTS: readonly [what: string, begins: string, tables: HeatTables][] = [
  ['145 °F a second longer', '6.5-log', row(145, 241)],
  ['145 °F half a minute shorter', '6.5-log', row(145, 210)],
  ['150 °F a second longer', '6.5-log', row(150, 68)],
  ['150 °F a third shorter', '6.5-log', row(150, 44)],
  ['157 °F at once', '6.5-log', row(157, 0)],
  ['158 °F with a time', '6.5-log', row(158, 14)],
  ['130 °F a minute longer', '6.5-log', row(130, 6780)],
  ['130 °F two minutes shorter', '6.5-log', row(130, 6600)],
  ['five hours and 59 minutes to come up', 'come-up', comeUp(359)],
  ['a quarter of an hour more to come up', 'come-up', comeUp(375)],
  ['steam for a cook of half an hour', 'come-up', humidity('steam', { cookMinutes: 30, minutes: 20 })],
  ['any end temperature under steam', 'come-up', humidity('steam', { leastF: null })],
  ['a fifth of the cook humid', 'come-up', humidity('humid-part', { share: 0.2 })],
  ['88 minutes to 80 °F', 'cooling', stage(0, 88)],
  ['95 minutes to 80 °F', 'cooling', stage(0, 95)],
  ['298 minutes to 40 °F', 'cooling', stage(1, 298)],
  ['302 minutes to 40 °F', 'cooling', stage(1, 302)],
  ['1,200 degree-hours at 90 °F', 'degree-hours', hours('90-to-100', 1200)],
  ['1,000 degree-hours below 90 °F', 'degree-hours', hours('below-90', 1000)],
];

describe('a wrong figure', () => {
  it.each(heatResults(TABLES))('is none of these: $name', async ({ expected, ours, near }) => {
    expect(isNear(expected, await ours(), near)).toBe(true);
  });

  it.each(FAULTS)('%s breaks its result', async (_, begins, tables) => {
    const found = heatResults(tables).find(({ name }) => name.startsWith(begins));
    expect(found).toBeDefined();
    if (found) expect(isNear(found.expected, await found.ours(), found.near)).toBe(false);
  });
});
