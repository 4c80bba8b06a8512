/** For every call that takes a day, an input that is right but for it: tests put days into each place that takes one. */
import type * as v from 'valibot';
import type { CallName } from '../../../src/bridge/contract.ts';
import { date } from '../../../src/desk/input/input.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import { takeIn, type FreshDesk } from '../fresh-desk.ts';
import { TRIED } from '../tried-writes.ts';

type Input = Record<string, unknown>;
type Prepare = (shop: FreshDesk) => Promise<Input> | Input;

/** As `tried-writes.ts` has it. */
const tried =
  (name: CallName): Prepare =>
  async (shop) => {
    const [, input] = (await TRIED[name]?.(shop)) ?? [];
    return { ...input };
  };
const PERIOD = () => ({ from: '2026-10-01', to: '2026-10-09' });

/** Kept complete by `dates.test.ts`. */
export const DATED: Partial<Record<CallName, Prepare>> = {
  'intake.takeIn': tried('intake.takeIn'),
  'drafts.add': tried('drafts.add'),
  'animals.edit': async (shop) => {
    const id = await takeIn(shop);
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('pickup.release', { id, to: 'Dana', unpaidBy: 'RO' });
    return { id, changes: {}, reason: 'read again' };
  },
  'animals.testResult': tried('animals.testResult'),
  'animals.dispose': tried('animals.dispose'),
  'donations.add': tried('donations.add'),
  'pickup.saveNotice': tried('pickup.saveNotice'),
  'belongings.end': tried('belongings.end'),
  'coolers.getRecord': async (shop) => ({
    ...PERIOD(),
    coolerId: (await shop.call('coolers.save', { name: 'Cold room', places: 9 })).id,
  }),
  'coolers.logTemperature': async (shop) => ({
    ...(await tried('coolers.logTemperature')(shop)),
    earlier: { on: '2026-10-09', time: '07:00' },
  }),
  'pickup.release': tried('pickup.release'),
  'grinder.saveCleaning': async (shop) => ({
    ...(await tried('grinder.saveCleaning')(shop)),
    earlier: { on: '2026-10-09', time: '07:00' },
  }),
  'loads.reading': tried('loads.reading'),
  'fat.receive': tried('fat.receive'),
  'prices.save': tried('prices.save'),
  'till.get': () => ({}),
  'till.setFloat': tried('till.setFloat'),
  'till.close': tried('till.close'),
  'till.exportJournal': () => ({ what: 'journal', ...PERIOD() }),
  'records.list': PERIOD,
  'season.yields': PERIOD,
  'season.pounds': PERIOD,
  'season.compare': () => ({ a: PERIOD(), b: PERIOD(), measure: 'takeHome' }),
  'season.flow': PERIOD,
  'season.fat': PERIOD,
  'season.check': PERIOD,
  'season.drilldown': () => ({ ...PERIOD(), what: { kind: 'all' } }),
};

interface Entry {
  key: string;
  schema: v.GenericSchema;
}
type Nested = v.GenericSchema & {
  entries?: Record<string, v.GenericSchema>;
  wrapped?: v.GenericSchema;
  item?: v.GenericSchema;
  options?: readonly unknown[];
};

/** Every place of an input and its schema, as `changes.killDate`. */
function placesOf(schema: v.GenericSchema, key = ''): Entry[] {
  if (schema === (date as v.GenericSchema)) return [{ key, schema }];
  const nested = schema as Nested;
  const inner: Entry[] = [
    ...Object.entries(nested.entries ?? {}).map(([name, one]) => ({
      key: key ? `${key}.${name}` : name,
      schema: one,
    })),
    ...[nested.wrapped, nested.item, ...(nested.options ?? [])]
      .filter((one): one is v.GenericSchema => typeof one === 'object' && one !== null)
      .map((one) => ({ key, schema: one })),
  ];
  return inner.length === 0 ? [{ key, schema }] : inner.flatMap((one) => placesOf(one.schema, one.key));
}

const places = (Object.keys(procedures) as CallName[]).flatMap((call) =>
  placesOf(procedures[call].input as v.GenericSchema).map((place) => ({ call, ...place })),
);
/** Each call with each place that takes a day. */
export const DAYS: readonly (readonly [CallName, string])[] = [
  ...new Map(
    places
      .filter(({ schema }) => schema === (date as v.GenericSchema))
      .map(({ call, key }) => [`${call} ${key}`, [call, key] as const]),
  ).values(),
];
/** Texts that are called as days are, and take anything. */
export const LOOSE_DAYS = places
  .filter(
    ({ key, schema }) =>
      schema !== date &&
      schema.type === 'string' &&
      /(Date|On|From|Until|useBy|day)$|(^|\.)(on|from|date)$/.test(key),
  )
  .map(({ call, key }) => `${call} ${key}`);

/** An input with a day at a place such as `changes.killDate`. */
export function withDay(input: Input, place: string, day: unknown): Input {
  const [first = '', ...rest] = place.split('.');
  const inner = rest.length > 0 ? withDay((input[first] ?? {}) as Input, rest.join('.'), day) : day;
  return { ...input, [first]: inner };
}
