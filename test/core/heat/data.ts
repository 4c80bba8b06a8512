import tablesJson from '../../../resources/heat-tables.json' with { type: 'json' };
import type { CookCheck } from '../../../src/core/heat/cook.ts';
import type {
  CoolingOption, DegreeHourLimit, HostFigure, TimeTable,
} from '../../../src/core/heat/figures.ts'; // prettier-ignore
import type { ProductLog, ProductReading } from '../../../src/core/heat/log.ts';

const tables = tablesJson as unknown as {
  lethality: readonly TimeTable[];
  hosts: HostFigure;
  cooling: readonly CoolingOption[];
  degreeHours: readonly DegreeHourLimit[];
};
export const TABLE = tables.lethality[0] as TimeTable;
export const HOSTS = tables.hosts;
export const [OPTION_1, OPTION_2] = tables.cooling as [CoolingOption, CoolingOption];
export const DEGREE_HOURS = tables.degreeHours;

export const START = Date.parse('2026-11-20T06:00:00Z');
export const MINUTE = 60_000;

/** Readings at these seconds. */
export const atSeconds = (...points: [second: number, value: number | null][]): ProductReading[] =>
  points.map(([second, value]) => ({ at: START + second * 1000, value }));

/** A reading each minute on straight lines between the corners, which have readings of their own. */
export function lines(...corners: [minute: number, f: number][]): ProductReading[] {
  return corners.flatMap(([to, f], i) => {
    const [from, before] = corners[i - 1] ?? [to, f];
    const between = Array.from({ length: Math.max(0, Math.ceil(to) - Math.floor(from) - 1) }, (_, k) => Math.floor(from) + 1 + k);
    return [...between.filter((m) => m > from && m < to).map((m) => [m, before + ((f - before) * (m - from)) / (to - from)] as const), [to, f] as const]
      .map(([minute, value]) => ({ at: START + minute * MINUTE, value }));
  });
} // prettier-ignore

export const log = (readings: readonly ProductReading[], degrees: 'F' | 'C' = 'F'): ProductLog => ({
  probe: 'core',
  degrees,
  readings,
});

/** Summer sausage in a fibrous casing: humidity need not be shown. */
export const cookOf = (readings: readonly ProductReading[], change: Partial<CookCheck> = {}): CookCheck => ({
  logs: [log(readings)],
  level: 'log65',
  poultry: false,
  host: false,
  accuracyF: 0,
  humidity: { kind: 'exempt', why: 'casing' },
  cook: null,
  ...change,
});
