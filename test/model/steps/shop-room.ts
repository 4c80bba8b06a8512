/** What the shop says of itself: settings, staff, coolers, what stands on its shelves, what its work costs. */
import { act, because, type Step } from '../step.ts';
import { NOBODY } from './nobody.ts';

const NO_COOLER = { id: 9999, name: '', away: false };

export const change: Step = {
  weight: 3,
  calls: ['shop.saveSettings'],
  draw(shop, dice) {
    const { settings } = shop.book;
    const changes = dice.pick<() => Partial<typeof settings>>([
      () => ({ cutWhileHeld: !settings.cutWhileHeld }),
      () => ({ unit: settings.unit === 'lb' ? 'kg' : 'lb' }),
      () => ({ zone: dice.pick(['America/Denver', 'Pacific/Auckland', 'Pacific/Honolulu', 'Not/AZone']) }),
      () => ({ seasonStartsMonth: dice.pick([7, 1, 12, 13]) }),
      () => ({ detailEvery: dice.pick([10, 1, 3]) }),
      () => ({ retentionYears: dice.pick([3, 1]) }),
      () => ({ currency: dice.pick(['USD', 'USD', 'CAD', 'JPY']) }),
    ])();
    return act('shop.saveSettings', { changes: changes as never, by: 'RO' }, {
      refuse: because(
        [changes.zone === 'Not/AZone', 'choice.zone'],
        [changes.seasonStartsMonth === 13, 'month.range'],
        [changes.currency !== undefined && changes.currency !== settings.currency && shop.owesIn(changes.currency), 'currency.accounts-open'],
      ),
      done: () => void Object.assign(settings, changes),
    });
  },
}; // prettier-ignore

export const addStaff: Step = {
  weight: 0.3,
  calls: ['shop.addStaff'],
  draw(shop, dice) {
    const initials = dice.pick(['ro', 'eh', 'TOOLONG']);
    return act('shop.addStaff', { initials, name: 'Robin' }, {
      refuse: because([initials.length > 6, 'text.too-long']),
      done: () => void (shop.book.staff = [...new Set([...shop.book.staff, initials.toUpperCase()])]),
    });
  },
}; // prettier-ignore

export const saveCooler: Step = {
  weight: 1,
  calls: ['coolers.save'],
  draw(shop, dice) {
    const known = dice.onceIn(2) ? dice.mostly(shop.book.coolers.filter(({ away }) => !away), [NO_COOLER]) : undefined;
    const name = dice.pick(['Cold room 1', 'Cold room 2', 'The barn']);
    const same = shop.book.coolers.some((one) => !one.away && one.name === name && one.id !== known?.id);
    return act('coolers.save', { ...(known && { id: known.id }), name, places: dice.pick([9, 1]) }, {
      refuse: because([same, 'cooler.twice'], [known === NO_COOLER, 'cooler.unknown']),
      done({ id }) {
        if (known) known.name = name;
        else shop.book.coolers.push({ id, name, away: false });
      },
    });
  },
}; // prettier-ignore

export const putCoolerAway: Step = {
  weight: 0.5,
  calls: ['coolers.archive'],
  draw(shop, dice) {
    const cooler = dice.mostly(shop.book.coolers.filter(({ away }) => !away), [...shop.book.coolers, NO_COOLER]);
    if (!cooler) return null;
    const hangs = shop.book.animals.some((one) => one.cooler === cooler.id && ['hanging', 'cutting'].includes(one.stage));
    return act('coolers.archive', { id: cooler.id }, {
      refuse: because([cooler.away || cooler === NO_COOLER, 'cooler.unknown'], [hangs && !cooler.away, 'cooler.in-use']),
      done: () => void (cooler.away = true),
    });
  },
}; // prettier-ignore

export const bringCoolerBack: Step = {
  weight: 0.5,
  calls: ['coolers.restore'],
  draw(shop, dice) {
    const cooler = dice.mostly(shop.book.coolers.filter(({ away }) => away), [...shop.book.coolers, NO_COOLER]);
    if (!cooler) return null;
    const same = shop.book.coolers.some((one) => !one.away && one.name === cooler.name);
    return act('coolers.restore', { id: cooler.id }, {
      refuse: because([!cooler.away || cooler === NO_COOLER, 'cooler.unknown'], [same && cooler.away, 'cooler.twice']),
      done: () => void (cooler.away = false),
    });
  },
}; // prettier-ignore

export const hang: Step = {
  weight: 2,
  calls: ['animals.hang'],
  draw(shop, dice) {
    const cooler = dice.mostly(shop.book.coolers.filter(({ away }) => !away), [...shop.book.coolers, NO_COOLER]);
    const animal = dice.mostly(shop.inShop.filter(({ stage }) => stage === 'hanging'), [...shop.book.animals, NOBODY]);
    if (!cooler || !animal) return null;
    return act('animals.hang', { ids: [animal.id], coolerId: cooler.id, place: 'hook 3' }, {
      refuse: because(
        [cooler === NO_COOLER || cooler.away, 'cooler.unknown'],
        [animal.id === 9999, 'animal.unknown'],
        [!['hanging', 'cutting'].includes(animal.stage), 'animal.not-hanging'],
      ),
      done: () => void (animal.cooler = cooler.id),
    });
  },
}; // prettier-ignore

export const logTemperature: Step = {
  weight: 1,
  calls: ['coolers.logTemperature'],
  draw(shop, dice) {
    const cooler = dice.mostly(shop.book.coolers.filter(({ away }) => !away), [NO_COOLER]);
    if (!cooler) return null;
    const typed = dice.pick(['36', '2 C', 'cold', '200']);
    return act('coolers.logTemperature', { coolerId: cooler.id, typed }, {
      refuse: because(
        [cooler === NO_COOLER, 'cooler.unknown'], [typed === 'cold', 'temperature.unreadable'], [typed === '200', 'temperature.range'],
      ),
      done: () => void shop.book.readings.push({ id: shop.newest('cooler_temperature'), voided: false }),
    });
  },
}; // prettier-ignore

export const takeTemperatureBack: Step = {
  weight: 0.5,
  calls: ['coolers.voidTemperature'],
  draw(shop, dice) {
    const reading = dice.mostly(shop.book.readings.filter(({ voided }) => !voided), shop.book.readings);
    if (!reading) return null;
    return act('coolers.voidTemperature', { readingId: reading.id, reason: 'another room' }, {
      refuse: because([reading.voided, 'temperature.voided']),
      done: () => void (reading.voided = true),
    });
  },
}; // prettier-ignore

export const saveCosts: Step = {
  weight: 0.3,
  calls: ['costing.save'],
  draw(_, dice) {
    const service = { minutesPerAnimal: '30', minutesPerUnit: '1', packageSize: '1 lb' };
    const wagePerHour = dice.pick(['20', '-1']);
    return act('costing.save', {
      wagePerHour, overheadPerHour: '10', packagingPerPackage: '0', wantedMargin: 0.2, services: { cutting: service, grinding: service, products: service },
    }, { refuse: because([wagePerHour === '-1', 'money.negative']) });
  },
}; // prettier-ignore

const shelfStep = (draw: Step['draw'], ...calls: Step['calls']): Step => ({ weight: 0.4, calls, draw });

export const species = shelfStep(
  (_, dice) => {
    const code = dice.pick(['cougar', 'unicorn']);
    return act(dice.pick(['species.archive', 'species.restore'] as const), { code }, {
      refuse: because([code === 'unicorn', 'species.unknown']),
    });
  },
  'species.archive',
  'species.restore',
); // prettier-ignore

export const saveSpecies = shelfStep(
  (shop, dice) => {
    const name = dice.pick(['Sika deer', 'Red stag', 'Elk']);
    const known = shop.book.species.includes(name);
    return act('species.save', {
      name, many: name, like: 'mule-deer', words: { male: 'stag', female: 'hind', young: 'calf' }, typicalTyped: '40 kg', leastTyped: '20 kg',
      mostTyped: '70 kg', primals: [{ name: 'Haunch', pair: true, share: 1 }],
    }, {
      refuse: because([name === 'Elk' || known, 'species.taken']),
      done: () => void shop.book.species.push(name),
    });
  },
  'species.save',
); // prettier-ignore

export const products = shelfStep(
  (_, dice) => {
    const code = dice.pick(['ground', 'gravel']);
    return act(dice.pick(['products.archive', 'products.restore'] as const), { code }, {
      refuse: because([code === 'gravel', 'product.unknown']),
    });
  },
  'products.archive',
  'products.restore',
); // prettier-ignore

export const saveProduct = shelfStep(
  (shop, dice) => {
    const name = dice.pick(['Links', 'Brats']);
    const known = shop.book.products.includes(name);
    return act('products.save', { name, kind: 'sausage' }, {
      refuse: because([known, 'product.taken']),
      done: () => void shop.book.products.push(name),
    });
  },
  'products.save',
); // prettier-ignore

const ORDERS = {
  cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 453.59237, extras: [], note: '',
}; // prettier-ignore

export const saveTemplate = shelfStep(
  (shop, dice) => {
    const name = dice.pick(['All ground', 'As last year']);
    const known = shop.book.templates.some((one) => one.name === name && !one.away);
    return act('templates.save', { name, carcass: null, instructions: ORDERS }, {
      refuse: because([known, 'template.taken']),
      done() {
        const found = shop.book.templates.find((one) => one.name === name);
        if (found) found.away = false;
        else shop.book.templates.push({ name, away: false });
      },
    });
  },
  'templates.save',
); // prettier-ignore

export const templates = shelfStep(
  (shop, dice) => {
    const name = dice.pick(['All ground', 'As last year']);
    const known = shop.book.templates.find((one) => one.name === name);
    const call = dice.pick(['templates.archive', 'templates.restore'] as const);
    return act(call, { name, carcass: null }, {
      refuse: because([!known, 'template.unknown']),
      done: () => void (known && (known.away = call === 'templates.archive')),
    });
  },
  'templates.archive',
  'templates.restore',
); // prettier-ignore
