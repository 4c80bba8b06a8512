/** Loads of the oven: what goes in, the readings, the verdict, and what is decided. */
import { act, because, type Act, type Step } from '../step.ts';
import type { Dice } from '../dice.ts';
import type { Driver, Window } from '../driver.ts';
import { heldMeat, loadsWith, stageOf } from '../smokehouse.ts';
import type { Load, Made } from '../smokehouse-state.ts';
import { markOf, type Shop } from '../shop.ts';
import { american, handOver } from './files.ts';
import { lost, NO_MADE, someMade } from './made.ts';
import { same } from './money-look.ts';

const NO_LOAD: Load = {
  id: 9999, name: '', season: 0, closed: false, batches: [], logs: [], readings: [], verdict: null, verdicts: 0,
}; // prettier-ignore
/** Minutes after the oven is on, and °F inside: it meets the 6.5-log column in a casing, and the first cooling option. */
const CURVE = [[0, 40], [120, 130], [200, 162], [230, 162], [245, 130], [320, 80], [560, 38]] as const; // prettier-ignore
const OVEN_OFF = 230;
const MINUTE = 60_000;
const DAY = 86_400_000;

const someLoad = (shop: Shop, dice: Dice, suits: (load: Load) => boolean = ({ closed }) => !closed): Load =>
  dice.mostly(shop.book.smokehouse.loads.filter(suits), [...shop.book.smokehouse.loads, NO_LOAD]) ?? NO_LOAD;

/** Why a load takes nothing more. */
const shut = (load: Load): string[] =>
  because([load === NO_LOAD, 'load.unknown'], [load.closed, 'load.closed']);
const changed = ({ verdict }: Load): void => void (verdict && (verdict.fresh = false));

/** Why a batch does not go into a load. */
function keptOut(shop: Shop, made: Made, load: Load | null): string[] {
  const raw = made.start ? made.start.cured === null : shop.book.smokehouse.recipes.find(({ id }) => id === made.recipe)?.cured === null;
  return [
    ...lost(made),
    ...(made === NO_MADE || made.voided ? [] : [
      ...because(
        [raw, 'load.raw'],
        [stageOf(made, 'stuffed') === null, 'made.not-stuffed'],
        [loadsWith(shop, made.id).some((one) => one === load || !one.closed), 'load.elsewhere'],
      ),
      ...heldMeat(shop, shop.batch(made.batch)),
    ]),
  ];
} // prettier-ignore

/** A load with one batch. */
export function opensLoad(shop: Shop, made: Made): Act {
  return act('loads.open', { oven: 'Big one', madeIds: [made.id], by: 'RO' }, {
    refuse: keptOut(shop, made, null),
    done({ id, name }) {
      const { loads } = shop.book.smokehouse;
      if (loads.some((one) => one.name === name) || !name.startsWith(`L${markOf(shop.season)}-`)) throw new Error(`load ${name} in season ${shop.season}`);
      const batch = { id: shop.newest('load_batch'), made: made.id, voided: false };
      loads.push({ ...NO_LOAD, id, name, season: shop.season, batches: [batch], logs: [], readings: [] });
    },
  });
} // prettier-ignore

const isStuffed = (made: Made): boolean => made.start?.cured !== null && stageOf(made, 'stuffed') !== null;

export const openLoad: Step = {
  weight: 0.75,
  calls: ['loads.open'],
  draw: (shop, dice) => opensLoad(shop, someMade(shop, dice, isStuffed)),
};

export const addToLoad: Step = {
  weight: 0.35,
  calls: ['loads.add'],
  draw(shop, dice) {
    const load = someLoad(shop, dice);
    const made = someMade(shop, dice, isStuffed);
    return act('loads.add', { id: load.id, madeId: made.id }, {
      refuse: [...shut(load), ...keptOut(shop, made, load)],
      done({ id }) {
        load.batches.push({ id, made: made.id, voided: false });
        changed(load);
      },
    });
  },
}; // prettier-ignore

export const takeOutOfLoad: Step = {
  weight: 0.15,
  calls: ['loads.remove'],
  draw(shop, dice) {
    const load = someLoad(shop, dice);
    const row = dice.mostly(load.batches.filter(({ voided }) => !voided), load.batches) ?? { id: 9999, voided: true };
    return act('loads.remove', { id: load.id, loadBatchId: row.id, reason: 'other truck' }, {
      refuse: [...shut(load), ...because([row.voided, 'load.batch-unknown'])],
      done() {
        row.voided = true;
        changed(load);
      },
    });
  },
}; // prettier-ignore

const recordOf = (start: number | null, minutes: number) => ({
  level: 'log65', hasSupport: false, poultry: false, humidity: { kind: 'exempt', why: 'casing' }, accuracyF: 1, cooling: 'option-1', note: '',
  ovenStart: start === null ? null : new Date(start).toISOString(),
  ovenEnd: start === null ? null : new Date(start + minutes * MINUTE).toISOString(),
}) as const; // prettier-ignore

function records(load: Load, start: number | null, minutes: number): Act {
  return act('loads.record', { id: load.id, record: recordOf(start, minutes), by: 'RO' }, {
    refuse: [...shut(load), ...because([start !== null && minutes <= 0, 'cook.reversed'])],
    done: () => changed(load),
  });
} // prettier-ignore

export const recordCook: Step = {
  weight: 0.25,
  calls: ['loads.record'],
  draw: (shop, dice) =>
    records(someLoad(shop, dice), dice.pick([null, shop.now - DAY]), dice.pick([OVEN_OFF, -5])),
};

export const closeLoad: Step = {
  weight: 0.2,
  calls: ['loads.close', 'loads.reopen'],
  draw(shop, dice) {
    if (dice.onceIn(2)) {
      const load = someLoad(shop, dice);
      return act('loads.close', { id: load.id }, { refuse: shut(load), done: () => void (load.closed = true) });
    }
    const load = someLoad(shop, dice, ({ closed }) => closed);
    return act('loads.reopen', { id: load.id, reason: 'another probe' }, {
      refuse: because([load === NO_LOAD, 'load.unknown'], [load !== NO_LOAD && !load.closed, 'load.open']),
      done: () => void (load.closed = false),
    });
  },
}; // prettier-ignore

export const readThermometer: Step = {
  weight: 0.5,
  calls: ['loads.reading'],
  draw(shop, dice) {
    const load = someLoad(shop, dice);
    const [typed, probe] = [dice.pick(['150', '161.5', 'hot']), dice.pick(['P1', 'P2'])];
    return act('loads.reading', { id: load.id, probe, phase: 'cook', degrees: 'F', typed, by: 'RO' }, {
      refuse: [...shut(load), ...because([typed === 'hot', 'temperature.unreadable'])],
      done({ id }) {
        const known = load.logs.find((one) => one.content === null && one.probe === probe && !one.voided);
        same('the log of a probe', known === undefined || known.id === id, true);
        if (!known) load.logs.push({ id, probe, content: null, good: false, voided: false });
        load.readings.push({ id: shop.newest('load_reading'), log: id, excluded: false });
        changed(load);
      },
    });
  },
}; // prettier-ignore

/** A logger's file from a moment of the day before on, in the hours of UTC that the file names. */
function fileFrom(start: number, hot: boolean): string {
  const rows = Array.from({ length: 561 / 3 }, (_, i) => {
    const at = i * 3;
    const to = Math.max(1, CURVE.findIndex(([minutes]) => minutes >= at));
    const [after, before] = [CURVE[to] ?? [0, 0], CURVE[to - 1] ?? [0, 0]];
    const f = before[1] + ((at - before[0]) / (after[0] - before[0])) * (after[1] - before[1]);
    const moment = new Date(start + at * MINUTE).toISOString();
    return `${american(moment.slice(0, 10))},${moment.slice(11, 19)}Z,${(hot ? f : Math.min(f, 120)).toFixed(1)}`;
  });
  return ['Date,Time,Temp (F)', ...rows, ''].join('\n');
} // prettier-ignore

async function bring(driver: Driver, window: Window, load: Load, content: string, good: boolean): Promise<void> {
  const { shop } = driver;
  const upload = await handOver(driver, window, content);
  if (upload === null) return;
  const unknown = because([load === NO_LOAD, 'load.unknown']);
  const known = load.logs.some((one) => !one.voided && one.content === content);
  const seen = (await driver.perform(act('loads.previewLog', { id: load.id, upload }, {
    refuse: unknown,
    done: (found) => same('a file that the load has', found.known, known),
  }), window)) as { problemCount: number; readings: number } | null;
  if (!seen) return;
  await driver.perform(act('loads.importLog', { id: load.id, upload, probe: 'P3', phase: 'both', by: 'RO' }, {
    refuse: [...shut(load), ...because([seen.problemCount > 0, 'sheet.problems'], [known, 'load.file-known'], [seen.readings === 0 && seen.problemCount === 0, 'log.empty'])],
    done({ id, readings }) {
      same('readings of the file', readings, content.trim().split('\n').length - 1);
      const last = shop.newest('load_reading');
      load.logs.push({ id, probe: 'P3', content, good, voided: false });
      for (let n = readings - 1; n >= 0; n--) load.readings.push({ id: last - n, log: id, excluded: false });
      changed(load);
    },
  }), window);
} // prettier-ignore

export const bringLoadLog: Step = {
  weight: 0.3,
  calls: ['loads.previewLog', 'loads.importLog'],
  draw(shop, dice) {
    const load = someLoad(shop, dice);
    const again = dice.onceIn(4) ? load.logs.find(({ content }) => content !== null) : undefined;
    const hot = dice.onceIn(2);
    const content = again?.content ?? fileFrom(startFor(shop), hot);
    return {
      deed: `a logger's file of load ${load.id}`,
      run: (driver, window = driver.windows[0] as Window) =>
        bring(driver, window, load, content, again?.good ?? hot),
    };
  },
};

/** Whole minutes, a day ago. */
const startFor = (shop: Shop): number => Math.floor((shop.now - DAY) / MINUTE) * MINUTE;

export const voidLoadLog: Step = {
  weight: 0.15,
  calls: ['loads.voidLog'],
  draw(shop, dice) {
    const load = someLoad(shop, dice, ({ closed, logs }) => !closed && logs.length > 0);
    const log = dice.mostly(load.logs.filter(({ voided }) => !voided), load.logs);
    if (!log) return act('loads.voidLog', { logId: 99999, reason: 'of another load' }, { refuse: ['load.log-unknown'] });
    return act('loads.voidLog', { logId: log.id, reason: 'of another load' }, {
      refuse: [...shut(load), ...because([log.voided, 'made.weight-voided'])],
      done() {
        log.voided = true;
        changed(load);
      },
    });
  },
}; // prettier-ignore

export const leaveReadingOut: Step = {
  weight: 0.3,
  calls: ['loads.exclude', 'loads.include'],
  draw(shop, dice) {
    const load = someLoad(shop, dice, ({ closed, readings }) => !closed && readings.length > 0);
    const out = dice.onceIn(2);
    const row = dice.mostly(load.readings.filter(({ excluded }) => excluded !== out), load.readings);
    const call = out ? 'loads.exclude' : 'loads.include';
    if (!row) return act(call, { readingId: 999_999, reason: 'pulled out' }, { refuse: ['load.log-unknown'] });
    return act(call, { readingId: row.id, reason: 'pulled out' }, {
      refuse: [...shut(load), ...because([out && row.excluded, 'load.excluded'], [!out && !row.excluded, 'load.included'])],
      done() {
        row.excluded = out;
        changed(load);
      },
    });
  },
}; // prettier-ignore

/** A verdict is stored. Nothing is ever met without a whole log that meets the figures. */
function judges(load: Load): Act {
  return act('loads.judge', { id: load.id, by: 'RO' }, {
    refuse: because([load === NO_LOAD, 'load.unknown']),
    done({ cook, cooling }) {
      const standing = load.logs.filter(({ voided }) => !voided);
      const met = cook.answer === 'meets-figures' && cooling.answer === 'meets-figures';
      if (met && !standing.some(({ good }) => good)) throw new Error('the figures are met without a log that shows it');
      if (standing.length === 0) same('without a log', [cook.answer, cooling.answer], ['not-proven', 'not-proven']);
      load.verdict = { met, fresh: true };
      load.verdicts += 1;
    },
  });
} // prettier-ignore

export const judgeLoad: Step = {
  weight: 0.4,
  calls: ['loads.judge'],
  draw: (shop, dice) => judges(someLoad(shop, dice)),
};

const DECIDED = ['hold', 'cook again', 'not ready to eat', 'discard', 'authority'] as const;

export const decide: Step = {
  weight: 0.3,
  calls: ['loads.decide'],
  draw(shop, dice) {
    const decided = dice.pick(DECIDED);
    const made = dice.onceIn(3) ? someMade(shop, dice, () => true) : null;
    const load = made && !dice.onceIn(8) ? null : someLoad(shop, dice, () => true);
    const of = { loadId: load?.id ?? null, madeId: made?.id ?? null };
    return act('loads.decide', { ...of, decided, decidedBy: 'Mika Koski', note: 'the logger stopped', by: 'RO' }, {
      refuse: [
        ...because([made !== null && load !== null, 'decision.of-one'], [load === NO_LOAD && !made, 'load.unknown']),
        ...(made && !load ? lost(made) : []),
      ],
      done: ({ id }) => void shop.book.smokehouse.decisions.push({ id, load: load?.id ?? null, made: made?.id ?? null, decided, voided: false }),
    });
  },
}; // prettier-ignore

export const voidDecision: Step = {
  weight: 0.2,
  calls: ['loads.voidDecision'],
  draw(shop, dice) {
    const { decisions } = shop.book.smokehouse;
    const row = dice.mostly(decisions.filter(({ voided }) => !voided), decisions);
    if (!row) return null;
    return act('loads.voidDecision', { id: row.id, reason: 'it is fine' }, {
      refuse: because([row.voided, 'made.weight-voided']),
      done: () => void (row.voided = true),
    });
  },
}; // prettier-ignore

export const lookAtLoads: Step = {
  weight: 0.5,
  calls: ['loads.list', 'loads.get', 'loads.readings'],
  draw(shop, dice) {
    const load = someLoad(shop, dice, () => true);
    const log = dice.mostly(load.logs, []);
    return dice.pick<() => Act>([
      () => act('loads.list', {}, {
        done({ open }) {
          const names = shop.book.smokehouse.loads.filter(({ closed }) => !closed).map(({ name }) => name);
          same('open loads', open.map(({ name }) => name).sort(), names.sort());
        },
      }),
      () => act('loads.get', { id: load.id }, {
        refuse: because([load === NO_LOAD, 'load.unknown']),
        done({ batches, logs, verdicts }) {
          const standing = load.batches.filter(({ voided, made }) => !voided && shop.book.smokehouse.made.some((one) => one.id === made && !one.voided));
          same('batches in the load', batches.map(({ madeId }) => madeId), standing.map(({ made }) => made));
          const counts = load.logs.map(({ id }) => load.readings.filter((one) => one.log === id).length);
          same('readings of its logs', logs.map(({ readings }) => readings), counts);
          same('verdicts', verdicts.length, load.verdicts);
        },
      }),
      () => act('loads.readings', { logId: log?.id ?? 99_999 }, {
        refuse: because([!log, 'load.log-unknown']),
        done({ count, readings }) {
          const known = load.readings.filter((one) => one.log === log?.id);
          same('readings', count, known.length);
          same('left out', readings.filter(({ excluded }) => excluded).length, known.filter(({ excluded }) => excluded).length);
        },
      }),
    ])();
  },
}; // prettier-ignore

/** A load that meets the figures: the oven's times, the logger's file, the verdict. */
export async function cooksThrough(driver: Driver, window: Window, made: Made): Promise<void> {
  const { shop } = driver;
  const begun = (await driver.perform(opensLoad(shop, made), window)) as { id: number } | null;
  const load = begun && shop.book.smokehouse.loads.find(({ id }) => id === begun.id);
  if (!load) return;
  const start = startFor(shop);
  await driver.perform(records(load, start, OVEN_OFF), window);
  await bring(driver, window, load, fileFrom(start, true), true);
  await driver.perform(judges(load), window);
  const whole = load.logs.length === 1 && load.verdict !== null;
  if (whole) same('a good log meets the figures', load.verdict?.met, true);
}
