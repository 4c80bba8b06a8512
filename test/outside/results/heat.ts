/** Heat and cooling held against the guidelines: vectors worked out from their tables, judged by ours from whole logs. */
import tablesJson from '../../../resources/heat-tables.json' with { type: 'json' };
import { criticalLimitF, judgeCook, type CookCheck } from '../../../src/core/heat/cook.ts';
import { judgeCooling } from '../../../src/core/heat/cooling.ts';
import { degreeHours } from '../../../src/core/heat/degree-hours.ts';
import type {
  CoolingOption, DegreeHourLimit, HostFigure, TimeTable,
} from '../../../src/core/heat/figures.ts'; // prettier-ignore
import type { HumidityRecord } from '../../../src/core/heat/humidity.ts';
import type { ProductReading } from '../../../src/core/heat/log.ts';
import type { HeatAnswer } from '../../../src/core/heat/verdict.ts';
import type { PublishedResult } from '../result.ts';

export interface HeatTables {
  readonly lethality: readonly TimeTable[];
  readonly hosts: HostFigure;
  readonly cooling: readonly CoolingOption[];
  readonly degreeHours: readonly DegreeHourLimit[];
}

export const TABLES = tablesJson as unknown as HeatTables;

const ANSWERS: readonly HeatAnswer[] = ['not-met', 'not-proven', 'meets-figures'];
const MINUTE = 60_000;
type Corner = readonly [minute: number, f: number];

/** A reading every ten seconds on straight lines between the corners, which have readings of their own. */
function lines(corners: readonly Corner[]): ProductReading[] {
  return corners.flatMap(([to, f], i): ProductReading[] => {
    const [from, before] = corners[i - 1] ?? [to, f];
    const steps = Math.max(1, Math.ceil((to - from) * 6));
    return Array.from({ length: steps }, (_, k) => {
      const part = (k + 1) / steps;
      const minute = from + part * (to - from);
      return { at: Math.round(minute * MINUTE), value: part === 1 ? f : before + part * (f - before) };
    });
  });
}

/** From a cooler to 129 °F, in a minute or so to this temperature, so many seconds at it, and cold again. */
function held(f: number, seconds: number): ProductReading[] {
  const end = 180.1 + seconds / 60;
  const top: Corner[] = seconds > 0 ? [[180.1, f], [end, f]] : [[180.1, f]]; // prettier-ignore
  return lines([[0, 40], [180, 129], ...top, [end + 0.1, 100]]);
}

const CASING: HumidityRecord = { kind: 'exempt', why: 'casing' };

function cook(tables: HeatTables, readings: readonly ProductReading[], humidity = CASING, hours = 5): number {
  const check: CookCheck = {
    logs: [{ probe: 'core', degrees: 'F', readings }],
    level: 'log65',
    poultry: false,
    host: false,
    accuracyF: 0,
    humidity,
    cook: { from: 0, to: hours * 60 * MINUTE },
  };
  return ANSWERS.indexOf(judgeCook(check, tables.lethality[0] as TimeTable, tables.hosts).answer);
}

function cooled(
  { cooling }: HeatTables,
  readings: readonly ProductReading[],
  longestGapMinutes = 60,
): number {
  const check = { logs: [{ probe: 'core', degrees: 'F' as const, readings }], accuracyF: 0, longestGapMinutes }; // prettier-ignore
  return ANSWERS.indexOf(judgeCooling(check, cooling[0] as CoolingOption).answer);
}

/** 50 to 130 °F in so many minutes, and done at once after it. */
const comeUp = (minutes: number): ProductReading[] =>
  lines([[0, 50], [minutes, 130], [minutes + 0.5, 159], [minutes + 1, 100]]); // prettier-ignore
const SPARSE: readonly Corner[] = [[0, 135], [60, 97], [85, 81], [95, 78], [150, 65], [200, 50], [250, 40]]; // prettier-ignore
const seen = (corners: readonly Corner[]): ProductReading[] =>
  corners.map(([minute, value]) => ({ at: minute * MINUTE, value }));

/** The results by these tables: a wrong figure in them must show. */
export const heatResults = (tables: HeatTables): readonly PublishedResult[] => [
  {
    name: 'critical limit of 165 °F with a thermometer good to 1 °F either way',
    source: 'FSIS Cooking Guideline (Revised Appendix A), December 2021, page 20',
    basis: 'stated',
    expected: 166,
    ours: () => criticalLimitF(165, 1),
    near: { within: 0 },
    mistake: { what: 'the degree taken off', gives: 164 },
  },
  {
    name: '6.5-log vectors: 145 °F 4:00 and 3:40, 150 °F 67 and 45 s, 152 °F at once, 141 °F at once, 158 °F, 157.9 °F at once and 14 s, 130 °F 112 and 111 min',
    source: 'FSIS Cooking Guideline (Revised Appendix A), December 2021, table 2, page 35',
    basis: 'computed',
    note: '2 meets the figures, 1 not proven, 0 not met; 152 and 141 °F are the end temperatures of two published recipes',
    expected: [2, 0, 2, 0, 0, 0, 2, 0, 2, 2, 0],
    ours: () =>
      ([[145, 240], [145, 220], [150, 67], [150, 45], [152, 0], [141, 0], [158, 0], [157.9, 0], [157.9, 14], [130, 6720], [130, 6660]] as const)
        .map(([f, seconds]) => cook(tables, held(f, seconds))),
    near: { within: 0 },
    mistake: { what: 'an end temperature taken without its time', gives: [2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2] },
  },
  {
    name: 'come-up of 6:00 and 6:01; steam of 40 of 40 min; 90 % humidity 75 and 74 min of 5 h; 138 °F for 18 min in steam; a casing',
    source: 'FSIS Cooking Guideline (Revised Appendix A), December 2021, pages 23-33, come-up and humidity',
    basis: 'computed',
    note: '2 meets the figures, 0 not met',
    expected: [2, 0, 0, 2, 0, 0, 2],
    ours: () => [
      cook(tables, comeUp(360)),
      cook(tables, comeUp(362)),
      cook(tables, held(150, 67), { kind: 'steam', minutes: 40 }, 2 / 3),
      cook(tables, held(150, 67), { kind: 'humid-part', minutes: 75 }),
      cook(tables, held(150, 67), { kind: 'humid-part', minutes: 74 }),
      cook(tables, held(138, 1080), { kind: 'steam', minutes: 200 }),
      cook(tables, held(138, 1080)),
    ],
    near: { within: 0 },
    mistake: { what: 'the endpoint of 145 °F under steam left out', gives: [2, 0, 0, 2, 0, 2, 2] },
  },
  {
    name: 'cooling: 80 °F at 1:29 and 40 at 6:28; 80 at 1:31; 80 at 0:50 and 40 at 5:51; sparse readings at 0, 60, 85, 95 min',
    source: 'Appendix B, FSIS, 1999, option 1 (second-hand; the 2021 edition was not readable)',
    basis: 'computed',
    note: '2 meets the figures, 1 not proven, 0 not met',
    expected: [2, 0, 0, 1],
    ours: () => [
      cooled(tables, lines([[0, 131], [1, 130], [90, 80], [389, 40]])),
      cooled(tables, lines([[0, 131], [1, 130], [92, 80], [301, 40]])),
      cooled(tables, lines([[0, 131], [1, 130], [51, 80], [352, 40]])),
      cooled(tables, seen(SPARSE)),
    ],
    near: { within: 0 },
    mistake: { what: 'straight lines between the sparse readings', gives: [2, 0, 0, 2] },
  },
  {
    name: 'degree-hours: 80 °F for 55 h, 90 °F for 40 h, 95 °F for 28 h, and whether each is within its limit',
    source: 'FSIS-GD-2023-0002, degree-hours to pH 5.3 (second-hand)',
    basis: 'computed',
    expected: [1100, 1, 1200, 0, 980, 1],
    ours: () =>
      ([[80, 55], [90, 40], [95, 28]] as const).flatMap(([f, hours]) => {
        const found = degreeHours([{ f, hours }], tables.degreeHours);
        return [found.degreeHours, found.meets ? 1 : 0];
      }),
    near: { within: 1e-9 },
    mistake: { what: '90 °F held against the limit of colder rooms', gives: [1100, 1, 1200, 1, 980, 1] },
  },
]; // prettier-ignore

export const heats = heatResults(TABLES);
