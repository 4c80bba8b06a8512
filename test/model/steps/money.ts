/** Price books, bills, payments, and the animal going out. */
import { act, because, type Step } from '../step.ts';
import { CRUMB, moneyTyped, type Shop } from '../shop.ts';
import type { Animal, Bill, Payment, PriceLine } from '../state.ts';
import { NOBODY } from './nobody.ts';
import { dayNear, REASONS } from '../typed.ts';
import { baseOf, lookAtMoney } from './money-look.ts';

type Line = PriceLine & { label: string; fatSource: string | null };
const line = (code: string, basis: Line['basis'], more: Partial<Line> = {}): Line => ({
  code, label: code, basis, amountMinor: null, rate: null, unit: null, species: null, brought: null, fatSource: null, taxRate: 0, ...more,
}); // prettier-ignore

export const savePrices: Step = {
  weight: 1,
  calls: ['prices.save'],
  draw(shop, dice) {
    const { day, wrong } = dayNear(dice, shop.today, -30, 3);
    const confirmed = dice.onceIn(2);
    const tax = dice.pick([0, 0.0825]);
    const lines = [
      line('hang', 'hanging', { unit: dice.pick(['lb', 'kg']), amountMinor: dice.between(0, 300), taxRate: tax }),
      line('flat', 'animal', { amountMinor: dice.pick([4995, 0, -500]) }),
      line('wrap', 'package', { amountMinor: dice.between(0, 60), taxRate: tax }),
      line('cape', 'extra', { amountMinor: 2500 }),
      ...(dice.onceIn(2) ? [line('early', 'percent', { rate: dice.pick([-0.1, 0.075]) })] : []),
      ...(dice.onceIn(2) ? [line('least', 'minimum', { amountMinor: 9000 })] : []),
      ...(dice.onceIn(2) ? [line('ground', 'ground', { unit: 'lb', amountMinor: 45 })] : []),
      ...(dice.onceIn(12) ? [line('hang', 'animal', { amountMinor: 1 })] : []),
    ];
    const now = shop.prices;
    return act('prices.save', { name: 'Ours', validFrom: day, taxRule: dice.pick(['per line', 'per bill']), lines: lines as never, confirmed }, {
      refuse: [
        ...because([wrong !== null, wrong ?? ''], [lines.filter(({ code }) => code === 'hang').length > 1, 'price.twice']),
        ...(confirmed || wrong ? [] : because([now !== undefined && day < now.validFrom, 'prices.never-apply'])),
      ],
      done: () => void shop.book.prices.push({ id: shop.newest('price_book'), validFrom: day, example: false, currency: shop.book.settings.currency, lines }),
    });
  },
}; // prettier-ignore

export const makeBill: Step = {
  weight: 7,
  calls: ['bills.create'],
  draw(shop, dice) {
    const open = shop.inShop.filter(({ id }) => !shop.bill(id));
    const animal = dice.mostly([...open.filter(({ stage }) => stage !== 'ready'), ...open.filter(({ stage }) => stage === 'ready')], [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const confirmed = !dice.onceIn(3);
    const prices = shop.prices;
    const base = baseOf(shop, animal);
    const lacks = shop.trimLeft(animal.id) > CRUMB || openBatch(shop, animal) || packagesOf(shop, animal) === 0;
    const discount = prices?.lines.some(({ amountMinor }) => (amountMinor ?? 0) < 0);
    return act('bills.create', { animalId: animal.id, confirmed, by: 'RO' }, {
      refuse: because(
        [animal === NOBODY, 'animal.unknown'],
        [animal.stage === 'disposed' || animal.stage === 'canceled', 'animal.closed'],
        [shop.bill(animal.id) !== undefined, 'bill.stands'],
        [prices === undefined, 'bill.no-prices'],
        [prices !== undefined && prices.currency !== shop.book.settings.currency, 'bill.other-currency'],
        [prices !== undefined && shop.paid(animal.id) !== 0 && shop.currencyOf(animal.id) !== prices.currency, 'bill.paid-in-other-currency'],
        [base === null && prices?.lines.some((one) => one.basis === 'hanging' && charges(one, animal)) === true, 'bill.no-hanging'],
        [!confirmed && lacks, 'bill.not-weighed'],
      ),
      may: [...(confirmed ? [] : ['bill.not-weighed', 'bill.unpriced']), ...(discount ? ['bill.below-zero'] : [])],
      done({ id, number }) {
        const last = shop.book.bills.at(-1)?.number ?? 0;
        if (number !== last + 1) throw new Error(`bill ${number} after ${last}`);
        shop.book.bills.push({ id, number, animal: animal.id, total: 0, currency: prices?.currency ?? '', voided: false });
      },
      then: async (driver) => void (await driver.perform(lookAtMoney(shop, animal, true), driver.windowAnew())),
    });
  },
}; // prettier-ignore

const charges = ({ species, brought }: PriceLine, animal: Animal): boolean =>
  (species === null || species.includes(animal.species)) &&
  (brought === null || brought.includes(animal.brought));

const openBatch = (shop: Shop, { id }: Animal): boolean =>
  shop.book.batches.some(({ done, animals }) => !done && animals.includes(id));
const countOf = (rows: readonly { count: number | null }[]): number =>
  rows.reduce((sum, { count }) => sum + (count ?? 0), 0);
/** Packages of its own, and those of batches that are not shared; of a shared batch only that there are some. */
const packagesOf = (shop: Shop, { id }: Animal): number =>
  countOf(shop.weighed({ animal: id, stage: 'packed' })) +
  shop.book.batches
    .filter((one) => shop.wentInto(one.id, id))
    .reduce((sum, one) => sum + countOf(shop.weighed({ batch: one.id, stage: 'packed' })), 0); // prettier-ignore

export const voidBill: Step = {
  weight: 2,
  calls: ['bills.void'],
  draw(shop, dice) {
    const bill = dice.mostly(shop.book.bills.filter(({ voided }) => !voided), [...shop.book.bills, { id: 9999, voided: false } as Bill]);
    if (!bill) return null;
    return act('bills.void', { billId: bill.id, reason: dice.pick(REASONS) }, {
      refuse: because([bill.id === 9999, 'bill.unknown'], [bill.voided, 'bill.voided']),
      done: () => void (bill.voided = true),
    });
  },
}; // prettier-ignore

export const pay: Step = {
  weight: 7,
  calls: ['bills.pay'],
  draw(shop, dice) {
    const billed = shop.book.animals.filter(({ id }) => shop.bill(id) && (shop.bill(id)?.total ?? 0) > shop.paid(id));
    const animal = dice.mostly(billed, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const bill = shop.bill(animal.id);
    const currency = shop.currencyOf(animal.id);
    const paid = shop.paid(animal.id);
    const due = bill ? bill.total - paid : 0;
    const kind = dice.pick(['payment', 'deposit', 'refund'] as const);
    const minor = kind === 'refund' ? Math.max(1, paid + dice.pick([0, -1, 5])) : Math.max(1, dice.pick([due, 2500, due + 100, Math.round(due / 3)]));
    const confirmed = dice.onceIn(2);
    const slip = dice.onceIn(30) ? dice.pick([['', 'money.empty'], ['0', 'payment.zero'], ['-5', 'payment.zero'], ['lots', 'money.unreadable']] as const) : null;
    const typed = slip ? slip[0] : moneyTyped(minor, currency);
    return act('bills.pay', { animalId: animal.id, kind, method: 'cash', typed, confirmed, by: 'MB' }, {
      refuse: because(
        [animal === NOBODY, 'animal.unknown'],
        [animal.stage === 'canceled', 'animal.closed'],
        [slip !== null, slip?.[1] ?? ''],
        [!slip && kind === 'refund' && minor > paid, 'payment.refund'],
        [!slip && kind === 'payment' && bill !== undefined && minor > due && !confirmed, 'payment.over'],
      ),
      done: ({ id }) => void shop.book.payments.push({ id, animal: animal.id, kind, minor, currency, voided: false }),
    });
  },
}; // prettier-ignore

export const voidPayment: Step = {
  weight: 1,
  calls: ['bills.voidPayment'],
  draw(shop, dice) {
    const payment = dice.mostly(shop.book.payments.filter(({ voided }) => !voided), [...shop.book.payments, { id: 9999, voided: false } as Payment]);
    if (!payment) return null;
    return act('bills.voidPayment', { paymentId: payment.id, reason: dice.pick(REASONS) }, {
      refuse: because(
        [payment.id === 9999, 'payment.unknown'],
        [payment.voided, 'payment.voided'],
        [!payment.voided && payment.kind !== 'refund' && shop.paid(payment.animal) < payment.minor, 'payment.given-back'],
        [payment.id !== 9999 && !payment.voided && shop.currencyOf(payment.animal) !== payment.currency, 'payment.other-currency'],
      ),
      done: () => void (payment.voided = true),
    });
  },
}; // prettier-ignore

export const note: Step = {
  weight: 1,
  calls: ['pickup.saveNote'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop.filter(({ stage }) => stage === 'ready'), [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    return act('pickup.saveNote', { id: animal.id, text: 'left a message' }, {
      refuse: because([animal === NOBODY, 'animal.unknown'], [animal !== NOBODY && animal.stage !== 'ready', 'note.not-ready']),
      done: () => void shop.book.notes.push({ animal: animal.id, text: 'left a message' }),
    });
  },
}; // prettier-ignore

export const release: Step = {
  weight: 8,
  calls: ['pickup.release'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop.filter(({ stage }) => stage === 'ready'), [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const unpaidBy = dice.onceIn(3) ? 'RO' : '';
    const bill = shop.bill(animal.id);
    const due = bill ? bill.total - shop.paid(animal.id) : 0;
    const here = shop.book.belongings.filter((one) => one.animal === animal.id && !one.voided && !one.gone);
    const going = here.filter(() => !dice.onceIn(3));
    const confirmed = dice.onceIn(2);
    return act('pickup.release', { id: animal.id, to: 'Dana', unpaidBy, by: 'RO', belongings: going.map(({ id }) => id), confirmed }, {
      refuse: [
        ...because(
          [animal === NOBODY, 'animal.unknown'],
          [animal !== NOBODY && animal.stage !== 'ready', 'release.not-ready'],
          [shop.held(animal) !== 'free', 'release.held'],
          [unpaidBy === '' && !bill && shop.prices !== undefined && !shop.prices.example, 'release.no-bill'],
          [unpaidBy === '' && due > 0, 'release.unpaid'],
          [!confirmed && going.length < here.length, 'release.belongings'],
        ),
        ...shop.pooledOff(animal),
      ],
      done() {
        Object.assign(animal, { stage: 'released', releasedOn: shop.today });
        for (const one of going) Object.assign(one, { gone: true, along: true });
        const own = shop.ownLot(animal.id);
        if (own) Object.assign(own, own.left > CRUMB ? { left: 0, gone: own.left } : { gone: 0 });
      },
    });
  },
}; // prettier-ignore
