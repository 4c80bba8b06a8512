/** For every call that writes, a shop that is ready for it and an input that it takes: for tests of all of them. */
import { addDays } from '../../src/core/values/dates.ts';
import type { CallInput, CallName } from '../../src/bridge/contract.ts';
import { importTable, uploadFile, previewTable } from './import/import-file.ts';
import { addPhoto, storedPhoto } from '../photo-of.ts';
import { cut, takeIn, type FreshDesk } from './fresh-desk.ts';
import { TRIED_LEDGER } from './ledger/tried.ts';
import { TRIED_SMOKEHOUSE } from './smokehouse/tried.ts';
import { TRIED_STATIONS } from './stations/tried.ts';
import { giveable, lessonOf } from './lessons/lesson-of.ts';
import { seenIn } from './till/seen-in.ts';

export type Try = { [N in CallName]: [N, Omit<CallInput<N>, 'by'>] }[CallName];
/** What is tried, on an animal that hangs, one that is ready, and one in a batch with its trim. */
export type Prepare = (shop: FreshDesk) => Promise<Try> | Try;

const LINE = {
  code: 'cut', label: 'Cutting', basis: 'animal', amountMinor: 9500, rate: null, unit: null, species: null, brought: null,
  fatSource: null, taxRate: 0,
} as const; // prettier-ignore
const ORDERS = {
  cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 453.59237, extras: [], note: '',
}; // prettier-ignore
const WISH = {
  name: 'Sika deer', many: 'Sika deer', like: 'mule-deer', words: { male: 'stag', female: 'hind', young: 'calf' },
  typicalTyped: '90', leastTyped: '50', mostTyped: '140',
} as const; // prettier-ignore
const draft = () =>
  ({ language: 'es-MX', name: newName('Bo Rask'), phone: '555-0100', species: 'elk', sex: 'male', terms: '', instructions: ORDERS }) as const; // prettier-ignore
const GRIND = { fat: 'none', targetFat: null, product: 'Ground' } as const;

const ready = async (shop: FreshDesk): Promise<number> => {
  const id = await takeIn(shop);
  await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  return id;
};
/** A part of what is packed, for a program that the shop knows. */
const gift = async (shop: FreshDesk) => {
  const donationPrograms = [{ name: 'Hunters Share', paysMinor: 150, paysUnit: 'lb' as const }];
  await shop.call('shop.saveSettings', { changes: { donationPrograms } });
  const id = await takeIn(shop);
  const pack = { stage: 'packed', part: 'package', product: 'Ground', count: 40 } as const;
  await shop.call('table.weigh', { animalId: id, ...pack, typed: '40' });
  await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  return { id, program: 'Hunters Share', whole: false, typed: '12.5' };
};
/** A ready animal of two hunters. */
const sharedReady = async (shop: FreshDesk): Promise<{ id: number; owner: number }> => {
  const id = await ready(shop);
  const owner = (await shop.call('animals.get', { id })).hunter.id;
  const shares = [
    { hunter: { id: owner }, typed: '1' },
    { hunter: { name: newName('Bob Ray') }, typed: '1' },
  ];
  await shop.call('shares.save', { animalId: id, basis: 'pieces', shares });
  return { id, owner };
};
const belonging = async (shop: FreshDesk): Promise<number> =>
  (await shop.call('belongings.add', { animalId: await takeIn(shop), kind: 'cape' })).id;
const trimmed = async (shop: FreshDesk): Promise<number> => {
  const id = await takeIn(shop);
  await cut(shop, id, { trim: '60' });
  return id;
};
const batch = async (shop: FreshDesk): Promise<{ batchId: number; animalId: number }> => {
  const animalId = await trimmed(shop);
  const { id } = await shop.call('grinder.start', { ...GRIND, animals: [{ id: animalId }] });
  return { batchId: id, animalId };
};
const ground = async (shop: FreshDesk): Promise<number> => {
  const { batchId, animalId } = await batch(shop);
  await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '60' });
  return batchId;
};
/** An animal whose batch the positive result of another reaches. */
const affected = async (shop: FreshDesk): Promise<{ id: number; sourceId: number }> => {
  const [sourceId, id] = [await trimmed(shop), await trimmed(shop)];
  const animals = [sourceId, id].map((one) => ({ id: one }));
  const { id: batchId } = await shop.call('grinder.start', { ...GRIND, animals });
  for (const animalId of [sourceId, id])
    await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '30' });
  await shop.call('animals.hold', { id: sourceId, reason: 'sample', sample: 'L7' });
  await shop.call('animals.testResult', { id: sourceId, result: 'positive' });
  return { id, sourceId };
};
const lot = async (shop: FreshDesk): Promise<number> =>
  (await shop.call('fat.receive', { source: 'pork-back-fat', typed: '20' })).id;
let made = 0;
/** A name that nothing in a shop has yet. */
const newName = (what: string): string => `${what} ${(made += 1)}`;
const cooler = async (shop: FreshDesk): Promise<number> =>
  (await shop.call('coolers.save', { name: newName('Cold room'), places: 9 })).id;
const priced = async (shop: FreshDesk): Promise<number> => {
  await shop.call('prices.save', {
    name: 'Ours',
    validFrom: '2020-01-01',
    taxRule: 'per bill',
    lines: [LINE, { ...LINE, code: 'hour', basis: 'hour' }],
    // A shop that has newer prices keeps going by those.
    confirmed: true,
  });
  return takeIn(shop);
};

const template = () => ({ name: newName('All ground'), carcass: null });

/** The newest day that is not closed yet, counted and signed. */
const openTill = async (shop: FreshDesk): Promise<CallInput<'till.close'>> => {
  let till = await shop.call('till.get', {});
  while (till.closing) till = await shop.call('till.get', { day: addDays(till.day, -1) });
  const { day, currency, expectedMinor } = till;
  return {
    day,
    currency,
    expectedMinor,
    seen: seenIn(till),
    counted: { total: '0' },
    note: 'counted',
    by: 'MK',
  };
};

export const TRIED: Partial<Record<CallName, Prepare>> = {
  'shop.setUp': () => ['shop.setUp', { shopName: 'Another name', unit: 'kg' }],
  'shop.saveSettings': () => ['shop.saveSettings', { changes: { lateDays: 3, recordFields: ['tag'] } }],
  'shop.setLock': () => ['shop.setLock', { passphrase: 'nine tails of a cat' }],
  'shop.renewBackups': async (shop) => {
    const { id } = await shop.call('hunters.save', { name: 'Bo Rask' });
    await shop.call('shop.backUp', {});
    await shop.call('hunters.removeDetails', { id, reason: 'asked for by letter' });
    return ['shop.renewBackups', {}];
  },
  'shop.trustClock': () => ['shop.trustClock', {}],
  'shop.addStaff': () => ['shop.addStaff', { initials: 'RO', name: 'Robin' }],
  'hunters.save': () => ['hunters.save', { name: 'Bo Rask' }],
  'hunters.removeDetails': async (shop) => {
    const { id } = await shop.call('hunters.save', { name: 'Bo Rask', phone: '555-0100' });
    return ['hunters.removeDetails', { id, reason: 'asked for by letter' }];
  },
  'intake.takeIn': () => [
    'intake.takeIn',
    { hunter: { name: 'Bo' }, species: 'elk', sex: 'male', age: 'adult', brought: 'whole' },
  ],
  'coolers.save': () => ['coolers.save', { name: newName('Cold room'), places: 9 }],
  'coolers.archive': async (shop) => ['coolers.archive', { id: await cooler(shop) }],
  'coolers.restore': async (shop) => {
    const id = await cooler(shop);
    await shop.call('coolers.archive', { id });
    return ['coolers.restore', { id }];
  },
  'coolers.logTemperature': async (shop) => [
    'coolers.logTemperature',
    { coolerId: await cooler(shop), typed: '36' },
  ],
  'coolers.voidTemperature': async (shop) => {
    const coolerId = await cooler(shop);
    await shop.call('coolers.logTemperature', { coolerId, typed: '36' });
    const session = (await shop.call('coolers.list', {})).find(({ id }) => id === coolerId);
    return ['coolers.voidTemperature', { readingId: session?.readings[0]?.id ?? 0, reason: 'another room' }];
  },
  'coolers.restoreTemperature': async (shop) => {
    const coolerId = await cooler(shop);
    await shop.call('coolers.logTemperature', { coolerId, typed: '36' });
    const session = (await shop.call('coolers.list', {})).find(({ id }) => id === coolerId);
    const readingId = session?.readings[0]?.id ?? 0;
    await shop.call('coolers.voidTemperature', { readingId, reason: 'another room' });
    return ['coolers.restoreTemperature', { readingId }];
  },
  'coolers.importLog': async (shop) => {
    const upload = await uploadFile(shop, 'Date,Time,Temp (F)\n10/9/2026,06:00,36\n');
    return ['coolers.importLog', { coolerId: await cooler(shop), upload }];
  },
  'coolers.undoImport': async (shop) => {
    const upload = await uploadFile(shop, 'Date,Time,Temp (F)\n10/9/2026,06:00,36\n');
    const { id } = await shop.call('coolers.importLog', { coolerId: await cooler(shop), upload });
    return ['coolers.undoImport', { id }];
  },
  'animals.setStage': async (shop) => ['animals.setStage', { id: await takeIn(shop), stage: 'packing' }],
  'animals.setDetail': async (shop) => ['animals.setDetail', { id: await takeIn(shop), detail: 'quick' }],
  'animals.edit': async (shop) => [
    'animals.edit',
    { id: await takeIn(shop), changes: { tag: 'E-2', address: 'Mill Lane' }, reason: 'read again' },
  ],
  'animals.saveOrders': async (shop) => [
    'animals.saveOrders',
    { id: await takeIn(shop), instructions: ORDERS },
  ],
  'animals.hang': async (shop) => [
    'animals.hang',
    { ids: [await takeIn(shop)], coolerId: await cooler(shop) },
  ],
  'animals.hold': async (shop) => ['animals.hold', { id: await takeIn(shop), reason: 'smells' }],
  'animals.endHold': async (shop) => [
    'animals.endHold',
    { id: await takeIn(shop, { sample: 'L1' }), reason: 'passed by the inspector' },
  ],
  'animals.testResult': async (shop) => [
    'animals.testResult',
    { id: await takeIn(shop, { sample: 'L1' }), result: 'not detected' },
  ],
  'animals.noteAffected': async (shop) => [
    'animals.noteAffected',
    { ...(await affected(shop)), what: 'called', note: 'brings it back' },
  ],
  'animals.voidAffected': async (shop) => {
    const note = await shop.call('animals.noteAffected', { ...(await affected(shop)), what: 'called' });
    return ['animals.voidAffected', { noteId: note.id, reason: 'another hunter' }];
  },
  'animals.dispose': async (shop) => [
    'animals.dispose',
    { id: await takeIn(shop), what: 'All', how: 'Landfill', reason: 'spoiled' },
  ],
  'animals.cancel': async (shop) => ['animals.cancel', { id: await takeIn(shop), reason: 'entered twice' }],
  'animals.reopen': async (shop) => {
    const id = await ready(shop);
    await shop.call('pickup.release', { id, to: 'Dana', unpaidBy: 'RO' });
    return ['animals.reopen', { id, reason: 'the wrong ticket' }];
  },
  'donations.add': async (shop) => ['donations.add', await gift(shop)],
  'donations.void': async (shop) => {
    const { id } = await shop.call('donations.add', await gift(shop));
    return ['donations.void', { id, reason: 'typed for another' }];
  },
  'unprocessed.add': async (shop) => [
    'unprocessed.add',
    { id: await takeIn(shop), reason: 'to another shop' },
  ],
  'unprocessed.void': async (shop) => {
    const id = await takeIn(shop);
    await shop.call('unprocessed.add', { id, reason: 'to another shop' });
    return ['unprocessed.void', { id, reason: 'stays here' }];
  },
  'pickup.saveNotice': async (shop) => [
    'pickup.saveNotice',
    { id: await ready(shop), step: 'first', how: 'call' },
  ],
  'pickup.voidNotice': async (shop) => {
    const { id } = await shop.call('pickup.saveNotice', {
      id: await ready(shop),
      step: 'first',
      how: 'call',
    });
    return ['pickup.voidNotice', { id, reason: 'not given' }];
  },
  'shares.save': async (shop) => {
    const { id, owner } = await sharedReady(shop);
    const shares = [
      { hunter: { name: newName('Ann Ray') }, typed: '1' },
      { hunter: { id: owner }, typed: '2' },
    ];
    return ['shares.save', { animalId: id, basis: 'pieces', shares }];
  },
  'shares.release': async (shop) => {
    const { id, owner } = await sharedReady(shop);
    return ['shares.release', { id, hunterId: owner, to: 'Dana', unpaidBy: 'RO' }];
  },
  'shares.voidRelease': async (shop) => {
    const { id, owner } = await sharedReady(shop);
    await shop.call('shares.release', { id, hunterId: owner, to: 'Dana', unpaidBy: 'RO' });
    return ['shares.voidRelease', { id, hunterId: owner, reason: 'left it here' }];
  },
  'photos.add': async (shop) => [
    'photos.add',
    { animalId: await takeIn(shop), kind: 'damage', digest: await storedPhoto(shop) },
  ],
  'photos.void': async (shop) => {
    const { id } = await addPhoto(shop, await takeIn(shop));
    return ['photos.void', { id, reason: 'of another animal' }];
  },
  'photos.restore': async (shop) => {
    const { id } = await addPhoto(shop, await takeIn(shop));
    await shop.call('photos.void', { id, reason: 'of another animal' });
    return ['photos.restore', { id }];
  },
  'belongings.add': async (shop) => ['belongings.add', { animalId: await takeIn(shop), kind: 'antlers' }],
  'belongings.void': async (shop) => [
    'belongings.void',
    { id: await belonging(shop), reason: 'of another elk' },
  ],
  'belongings.end': async (shop) => ['belongings.end', { id: await belonging(shop), went: 'discarded' }],
  'belongings.voidEnd': async (shop) => {
    const id = await belonging(shop);
    await shop.call('belongings.end', { id, went: 'hunter' });
    return ['belongings.voidEnd', { id, reason: 'not fetched' }];
  },
  'table.weigh': async (shop) => [
    'table.weigh',
    { animalId: await takeIn(shop), stage: 'cut', part: 'trim', typed: '60' },
  ],
  'table.correct': async (shop) => {
    const { weighings } = await shop.call('animals.get', { id: await takeIn(shop) });
    return ['table.correct', { weighingId: weighings[0]?.id ?? 0, typed: '390', reason: 'misread' }];
  },
  'table.void': async (shop) => {
    const { weighings } = await shop.call('animals.get', { id: await takeIn(shop) });
    return ['table.void', { weighingId: weighings[0]?.id ?? 0, reason: 'another animal' }];
  },
  'table.move': async (shop) => {
    const { weighings } = await shop.call('animals.get', { id: await takeIn(shop) });
    return [
      'table.move',
      { weighingId: weighings[0]?.id ?? 0, animalId: await takeIn(shop, {}, null), reason: 'wrong ticket' },
    ];
  },
  'table.restore': async (shop) => {
    const { weighings } = await shop.call('animals.get', { id: await takeIn(shop) });
    const weighingId = weighings[0]?.id ?? 0;
    await shop.call('table.void', { weighingId, reason: 'another animal' });
    return ['table.restore', { weighingId }];
  },
  'table.stateNone': async (shop) => ['table.stateNone', { animalId: await takeIn(shop), part: 'damage' }],
  'table.voidNone': async (shop) => {
    const { noneId } = await shop.call('table.stateNone', { animalId: await takeIn(shop), part: 'damage' });
    return ['table.voidNone', { noneId, reason: 'there was some' }];
  },
  'grinder.start': async (shop) => ['grinder.start', { ...GRIND, animals: [{ id: await trimmed(shop) }] }],
  'grinder.weighIn': async (shop) => [
    'grinder.weighIn',
    { ...(await batch(shop)), part: 'trim', typed: '60' },
  ],
  'grinder.pass': async (shop) => ['grinder.pass', { batchId: await ground(shop), plate: '4.5 mm' }],
  'grinder.pack': async (shop) => [
    'grinder.pack',
    { batchId: await ground(shop), product: 'Ground', count: 50, typed: '58' },
  ],
  'grinder.fatTest': async (shop) => [
    'grinder.fatTest',
    { batchId: await ground(shop), percent: 9, method: 'Tester' },
  ],
  'grinder.finish': async (shop) => {
    const batchId = await ground(shop);
    await shop.call('grinder.pack', { batchId, product: 'Ground', count: 50, typed: '58' });
    return ['grinder.finish', { batchId }];
  },
  'grinder.reopen': async (shop) => {
    const batchId = await ground(shop);
    await shop.call('grinder.pack', { batchId, product: 'Ground', count: 50, typed: '58' });
    await shop.call('grinder.finish', { batchId });
    return ['grinder.reopen', { batchId, reason: 'a tub was left' }];
  },
  'grinder.saveCleaning': async (shop) => [
    'grinder.saveCleaning',
    { batchId: await ground(shop), how: 'taken apart and washed' },
  ],
  'grinder.voidCleaning': async (shop) => {
    const { id } = await shop.call('grinder.saveCleaning', { how: 'taken apart and washed' });
    return ['grinder.voidCleaning', { cleaningId: id, reason: 'not done yet' }];
  },
  'fat.receive': () => ['fat.receive', { source: 'pork-back-fat', typed: '20' }],
  'fat.discard': async (shop) => ['fat.discard', { lotId: await lot(shop), reason: 'rancid' }],
  'fat.count': async (shop) => ['fat.count', { lotId: await lot(shop), typed: '18', reason: 'counted' }],
  'quotes.save': () => [
    'quotes.save',
    {
      species: 'elk',
      brought: 'skinned',
      stage: 'hanging',
      typed: '300',
      instructions: ORDERS,
      hunterName: 'Bo',
    },
  ],
  'bills.create': async (shop) => ['bills.create', { animalId: await priced(shop), confirmed: true }],
  'bills.void': async (shop) => {
    const { id } = await shop.call('bills.create', { animalId: await priced(shop), confirmed: true });
    return ['bills.void', { billId: id, reason: 'wrong hunter' }];
  },
  'bills.pay': async (shop) => [
    'bills.pay',
    { animalId: await takeIn(shop), kind: 'deposit', method: 'cash', typed: '20' },
  ],
  'till.setFloat': () => ['till.setFloat', { typed: '150' }],
  'till.close': async (shop) => ['till.close', await openTill(shop)],
  'till.void': async (shop) => {
    const { id } = await shop.call('till.close', await openTill(shop));
    return ['till.void', { id, reason: 'counted wrong' }];
  },
  'till.saveReminder': async (shop) => {
    const animalId = await priced(shop);
    await shop.call('bills.create', { animalId, confirmed: true });
    return ['till.saveReminder', { animalId, text: 'Reminder by phone' }];
  },
  'bills.voidPayment': async (shop) => {
    const paid = { animalId: await takeIn(shop), kind: 'deposit', method: 'cash', typed: '20' } as const;
    const { id } = await shop.call('bills.pay', paid);
    return ['bills.voidPayment', { paymentId: id, reason: 'another animal' }];
  },
  'bills.adjust': async (shop) => [
    'bills.adjust',
    {
      animalId: await priced(shop),
      adjustment: { kind: 'amount off', amountMinor: 100, reason: 'waited long' },
    },
  ],
  'bills.voidAdjustment': async (shop) => {
    const adjustment = { kind: 'percent off' as const, rate: 0.1, reason: 'came twice' };
    const { id } = await shop.call('bills.adjust', { animalId: await priced(shop), adjustment });
    return ['bills.voidAdjustment', { adjustmentId: id, reason: 'another hunter' }];
  },
  'bills.setExtras': async (shop) => [
    'bills.setExtras',
    { animalId: await priced(shop), pricedExtras: { caping: 1 } },
  ],
  'bills.addHours': async (shop) => [
    'bills.addHours',
    { animalId: await priced(shop), lineCode: 'hour', minutes: 90 },
  ],
  'bills.voidHours': async (shop) => {
    const work = { animalId: await priced(shop), lineCode: 'hour', minutes: 90 };
    const { id } = await shop.call('bills.addHours', work);
    return ['bills.voidHours', { workTimeId: id, reason: 'ten times too much' }];
  },
  'bills.restorePayment': async (shop) => {
    const paid = { animalId: await takeIn(shop), kind: 'deposit', method: 'cash', typed: '20' } as const;
    const { id } = await shop.call('bills.pay', paid);
    await shop.call('bills.voidPayment', { paymentId: id, reason: 'another animal' });
    return ['bills.restorePayment', { paymentId: id }];
  },
  'bills.restore': async (shop) => {
    const { id } = await shop.call('bills.create', { animalId: await priced(shop), confirmed: true });
    await shop.call('bills.void', { billId: id, reason: 'another animal' });
    return ['bills.restore', { billId: id }];
  },
  'prices.save': () => [
    'prices.save',
    { name: 'Ours', validFrom: '2020-01-01', taxRule: 'per bill', lines: [LINE], confirmed: true },
  ],
  'pickup.saveNote': async (shop) => ['pickup.saveNote', { id: await ready(shop), text: 'left a message' }],
  'pickup.release': async (shop) => ['pickup.release', { id: await ready(shop), to: 'Dana', unpaidBy: 'RO' }],
  'species.save': () => [
    'species.save',
    { ...WISH, name: newName('Sika deer'), primals: [{ name: 'Haunch', pair: true, share: 1 }] },
  ],
  'species.archive': () => ['species.archive', { code: 'cougar' }],
  'species.restore': async (shop) => {
    await shop.call('species.archive', { code: 'cougar' });
    return ['species.restore', { code: 'cougar' }];
  },
  'products.save': () => ['products.save', { name: newName('Links'), kind: 'sausage' }],
  'products.archive': () => ['products.archive', { code: 'ground' }],
  'products.restore': async (shop) => {
    await shop.call('products.archive', { code: 'ground' });
    return ['products.restore', { code: 'ground' }];
  },
  'templates.save': () => ['templates.save', { ...template(), instructions: ORDERS }],
  'templates.archive': async (shop) => {
    const one = template();
    await shop.call('templates.save', { ...one, instructions: ORDERS });
    return ['templates.archive', one];
  },
  'templates.restore': async (shop) => {
    const one = template();
    await shop.call('templates.save', { ...one, instructions: ORDERS });
    await shop.call('templates.archive', one);
    return ['templates.restore', one];
  },
  'lessons.give': async (shop) => {
    await giveable(shop);
    return ['lessons.give', {}];
  },
  'lessons.take': () => ['lessons.take', { text: lessonOf(), label: 'The shop in town' }],
  'lessons.use': async (shop) => {
    const taken = await shop.call('lessons.take', { text: lessonOf(), label: 'The shop in town' });
    return ['lessons.use', { id: taken.id, used: false }];
  },
  'import.run': async (shop) => {
    const { upload, layout } = await previewTable(shop, 'hunters', 'Name,Phone\nBo Rask,555-0100\n');
    return ['import.run', { upload, kind: 'hunters', layout }];
  },
  'import.undo': async (shop) => {
    const { id } = await importTable(shop, 'hunters', 'Name,Phone\nBo Rask,555-0100\n');
    return ['import.undo', { id }];
  },
  'costing.save': async (shop) => {
    const service = { minutesPerAnimal: '30', minutesPerUnit: '1', packageSize: '1 lb' };
    const services = { cutting: service, grinding: service, products: service };
    await shop.call('costing.get', {});
    return [
      'costing.save',
      { wagePerHour: '20', overheadPerHour: '10', packagingPerPackage: '0.2', wantedMargin: 0.2, services },
    ];
  },
  'drafts.add': () => ['drafts.add', draft()],
  'drafts.dismiss': async (shop) => {
    const { id } = await shop.call('drafts.add', draft());
    return ['drafts.dismiss', { id, reason: 'left again' }];
  },
  'slips.add': () => ['slips.add', { count: 2 }],
  'drafts.restore': async (shop) => {
    const { id } = await shop.call('drafts.add', draft());
    await shop.call('drafts.dismiss', { id, reason: 'left again' });
    return ['drafts.restore', { id }];
  },
  ...TRIED_SMOKEHOUSE,
  ...TRIED_STATIONS,
  ...TRIED_LEDGER,
};
