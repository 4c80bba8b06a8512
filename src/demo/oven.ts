/** Loads of the oven: batches that are stuffed in time go in together, and the logger's file is read in the morning. */
import { aheadOf } from '../core/values/local-moment.ts';
import type { LoadRecord, MadePage } from '../desk/contract/contract.ts';
import { momentAt, nextWorkday } from './invented/calendar.ts';
import { drawing } from './invented/draw.ts';
import { MISTAKES, SEASONS, SHOP } from './invented/invention.ts';
import type { Filling, Shop } from './shop-day.ts';

/** Minutes after the oven is on, and °F inside. */
type Curve = readonly (readonly [minutes: number, f: number])[];

interface Cook {
  curve: Curve;
  /** Minutes of cooking; what follows dries or cools. */
  cooked: number;
  humidity?: LoadRecord['humidity'];
  /** Minutes without a reading. */
  stopped?: readonly [from: number, to: number];
  note?: string;
}

const SAUSAGE: Cook = {
  curve: [
    [0, 40],
    [150, 130],
    [240, 162],
    [252, 160],
    [264, 130],
    [334, 80],
    [570, 37],
  ],
  cooked: 250,
};
const JERKY: Cook = {
  curve: [
    [0, 40],
    [70, 130],
    [98, 162],
    [110, 161],
    [400, 139],
    [430, 100],
    [450, 78],
    [600, 38],
  ],
  cooked: 110,
  humidity: { kind: 'humid-part', minutes: 100 },
};
const STOPPED = { stopped: [170, 205], note: 'The logger stopped for half an hour.' } as const;
/** Four minutes at a temperature that takes half an hour. */
const WENT_OFF: Cook = {
  curve: [
    [0, 40],
    [150, 130],
    [170, 137],
    [174, 137],
    [190, 130],
    [256, 80],
    [480, 37],
  ],
  cooked: 174,
  note: 'The burner went out early.',
};
const NIGHTS = [
  { value: SAUSAGE, weight: 78 },
  { value: { ...SAUSAGE, ...STOPPED }, weight: 12 },
  { value: WENT_OFF, weight: 10 },
] as const;

const OVEN = 'Smokehouse';
/** Minutes until a load is full; on the last day one that is soon on. */
const FILLS = 150;
const FILLS_LAST = 15;
/** Minutes between readings of a thermometer, and its name. */
const LOOKS_EVERY = 10;
const PROBE = 'P1';
/** Minutes after midnight. */
const READ_AT = 8 * 60;
/** Minutes between readings. */
const EVERY = 5;
const NIGHT_STREAM = 67;
const MINUTE = 60_000;

/** Puts a stuffed batch into the load that is being filled, or into a new one. @returns the day on which it is out */
export function intoOven(shop: Shop, { id: madeId, finish }: MadePage, by: string): string {
  const { counter } = shop;
  const now = counter.now();
  if (shop.filling && shop.filling.finish === finish && shop.filling.on > now) {
    counter.call('loads.add', { id: shop.filling.id, madeId, by });
    return shop.filling.out;
  }
  const { id, name } = counter.call('loads.open', { oven: OVEN, madeIds: [madeId], by });
  const out = nextWorkday(counter.today());
  const last = counter.today() === shop.lastDay;
  const on = new Date(Math.ceil(now.getTime() / MINUTE + (last ? FILLS_LAST : FILLS)) * MINUTE);
  const filling = { id, finish, on, out };
  shop.filling = filling;
  shop.events.schedule(momentAt(out, READ_AT), () => judged(shop, filling, name, by));
  if (last) watched(shop, filling, by);
  return out;
}

/** While a load is in at the demo's current time, somebody reads its thermometer; later readings are dropped with the other events. */
function watched({ counter, events }: Shop, { id, on }: Filling, by: string): void {
  events.schedule(on, async () => {
    const { record } = await counter.call('loads.get', { id });
    counter.call('loads.record', { id, record: { ...record, ovenStart: on.toISOString() }, by });
  });
  const draw = drawing(SEASONS.seed, NIGHT_STREAM, id);
  for (const at of timesOf(SAUSAGE, LOOKS_EVERY))
    events.schedule(new Date(on.getTime() + at * MINUTE), () => {
      const typed = (along(SAUSAGE.curve, at) + draw.between(-0.3, 0.3)).toFixed(1);
      counter.call('loads.reading', { id, probe: PROBE, phase: 'both', degrees: 'F', typed, by });
    });
}

/** The log is read, held against the figures, and what does not meet them is decided on, but for one that waits for a decision. */
async function judged(shop: Shop, { id, finish, on, out }: Filling, name: string, by: string): Promise<void> {
  const { counter } = shop;
  const draw = drawing(SEASONS.seed, NIGHT_STREAM, id);
  const waits = out === MISTAKES.loggerStopped;
  const {
    humidity,
    cooked,
    note = '',
    ...cook
  }: Cook = finish === 'dried' ? JERKY : waits ? { ...SAUSAGE, ...STOPPED } : draw.pickWeighted<Cook>(NIGHTS);
  const readings = timesOf(cook, EVERY).map(
    (at) => [at, along(cook.curve, at) + draw.between(-0.3, 0.3)] as const,
  );
  const { record } = await counter.call('loads.get', { id });
  const oven = {
    ovenStart: on.toISOString(),
    ovenEnd: new Date(on.getTime() + cooked * MINUTE).toISOString(),
  };
  counter.call('loads.record', {
    id,
    record: { ...record, ...oven, ...(humidity && { humidity }), note },
    by,
  });
  const { upload } = counter.call('import.begin', { name: `${name}.csv` });
  const base64 = Buffer.from(fileOf(on, readings)).toString('base64');
  counter.call('import.addPiece', { upload, from: 0, base64 });
  counter.call('loads.importLog', {
    id,
    upload,
    probe: PROBE,
    phase: 'both',
    degrees: 'F',
    dates: 'month first',
    by,
  });
  const verdict = counter.call('loads.judge', { id, by });
  const meets = [verdict.cook, verdict.cooling].every(({ answer }) => answer === 'meets-figures');
  if (!meets && !waits)
    counter.call('loads.decide', {
      loadId: id,
      decided: 'not ready to eat',
      decidedBy: by,
      note: `${note} Labeled to be cooked through at home.`.trim(),
      by,
    });
  counter.call('loads.close', { id, by });
}

/** As the shop's logger writes it, on the shop's clock. */
function fileOf(on: Date, readings: readonly (readonly [minutes: number, f: number])[]): string {
  const rows = readings.map(([after, f]) => {
    const moment = on.getTime() + after * MINUTE;
    const shown = new Date(moment + aheadOf(moment, SHOP.settings.zone)).toISOString();
    const [year, month, day, hour, minute] = shown.split(/[-T:]/);
    return `${month}/${day}/${year},${hour}:${minute},${f.toFixed(1)}`;
  });
  return ['Date,Time,Temp (F)', ...rows, ''].join('\n');
}

function timesOf({ curve, stopped }: Pick<Cook, 'curve' | 'stopped'>, every: number): number[] {
  const last = curve.at(-1)?.[0] ?? 0;
  const times = Array.from({ length: Math.floor(last / every) + 1 }, (_, i) => i * every);
  return stopped ? times.filter((at) => at < stopped[0] || at > stopped[1]) : times;
}

function along(curve: Curve, at: number): number {
  const to = curve.findIndex(([minutes]) => minutes >= at);
  const [after, before] = [curve[to] ?? [0, 0], curve[Math.max(0, to - 1)] ?? [0, 0]];
  const part = after[0] === before[0] ? 0 : (at - before[0]) / (after[0] - before[0]);
  return before[1] + part * (after[1] - before[1]);
}
