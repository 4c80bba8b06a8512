/** Donated meat, and notices to hunters who do not come for theirs. */
import { act, because, type Step } from '../step.ts';
import { CRUMB, isInShop } from '../shop.ts';
import type { Donation, Notice } from '../state.ts';
import { NOBODY } from './nobody.ts';
import { REASONS } from '../typed.ts';

const PROGRAM = { name: 'Hunters Share', paysMinor: 150, paysUnit: 'lb' } as const;

export const setProgram: Step = {
  weight: 0.3,
  calls: ['shop.saveSettings'],
  draw: (shop) =>
    act('shop.saveSettings', { changes: { donationPrograms: [PROGRAM] } }, {
      done: () => void (shop.book.hasProgram = true),
    }), // prettier-ignore
};

export const donate: Step = {
  weight: 2,
  calls: ['donations.add', 'donations.list'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop.filter(({ stage }) => stage === 'ready'), [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const whole = dice.onceIn(3);
    const unclaimed = dice.onceIn(4);
    const confirmed = dice.onceIn(2);
    const last = shop.book.notices.some((one) => one.animal === animal.id && one.step === 'last' && !one.voided);
    const here = shop.book.belongings.some((one) => one.animal === animal.id && !one.voided && !one.gone);
    return act('donations.add', { id: animal.id, program: PROGRAM.name, whole, typed: '1 lb', why: unclaimed ? 'unclaimed' : 'hunter', confirmed, by: 'MB' }, {
      refuse: [
        ...because(
          [animal === NOBODY, 'animal.unknown'],
          [!isInShop(animal), 'animal.closed'],
          [animal !== NOBODY && animal.stage !== 'ready', 'release.not-ready'],
          [shop.held(animal) !== 'free', 'release.held'],
          [!shop.book.hasProgram, 'donation.program'],
          [unclaimed && !last, 'donation.not-noticed'],
          [animal.receivedOn > shop.today, 'donation.before-received'],
          [whole && here && !confirmed, 'release.belongings'],
        ),
        ...shop.pooledOff(animal),
      ],
      // What of a shared batch is this animal's is not worked out here.
      may: ['donation.more'],
      done({ id }) {
        shop.book.donations.push({ id, animal: animal.id, whole, voided: false });
        if (!whole) return;
        Object.assign(animal, { stage: 'released', releasedOn: shop.today });
        const own = shop.ownLot(animal.id);
        if (own) Object.assign(own, own.left > CRUMB ? { left: 0, gone: own.left } : { gone: 0 });
      },
    });
  },
}; // prettier-ignore

const NO_DONATION: Donation = { id: 9999, animal: 0, whole: false, voided: false };

export const voidDonation: Step = {
  weight: 0.5,
  calls: ['donations.void'],
  draw(shop, dice) {
    const one = dice.mostly(shop.book.donations.filter(({ voided }) => !voided), [...shop.book.donations, NO_DONATION]); // prettier-ignore
    if (!one) return null;
    const left = one.whole && shop.animal(one.animal)?.stage === 'released';
    return act('donations.void', { id: one.id, reason: dice.pick(REASONS) }, {
      refuse: because([one === NO_DONATION, 'donation.unknown'], [one.voided, 'donation.voided'], [left, 'donation.left']),
      done: () => void (one.voided = true),
    }); // prettier-ignore
  },
};

const STEPS = ['first', 'second', 'last'] as const;

export const notify: Step = {
  weight: 2,
  calls: ['pickup.saveNotice'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop.filter(({ stage }) => stage === 'ready'), [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const given = shop.book.notices.filter((one) => one.animal === animal.id && !one.voided).map((one) => one.step);
    const step = dice.onceIn(4) ? dice.pick(STEPS) : (STEPS.find((one) => !given.includes(one)) ?? 'last');
    const before = STEPS[STEPS.indexOf(step) - 1];
    return act('pickup.saveNotice', { id: animal.id, step, how: 'call', by: 'EH' }, {
      refuse: because(
        [animal === NOBODY, 'animal.unknown'],
        [animal !== NOBODY && animal.stage !== 'ready', 'note.not-ready'],
        [given.includes(step), 'notice.given'],
        [before !== undefined && !given.includes(before), 'notice.order'],
      ),
      // The clock may have been put back since it was ready, or since the notice before.
      may: ['notice.before-ready'],
      done: ({ id }) => void shop.book.notices.push({ id, animal: animal.id, step, voided: false }),
    });
  },
}; // prettier-ignore

const NO_NOTICE: Notice = { id: 9999, animal: 0, step: 'first', voided: false };

export const voidNotice: Step = {
  weight: 0.5,
  calls: ['pickup.voidNotice'],
  draw(shop, dice) {
    const one = dice.mostly(shop.book.notices.filter(({ voided }) => !voided), [...shop.book.notices, NO_NOTICE]);
    if (!one) return null;
    const later = STEPS[STEPS.indexOf(one.step) + 1];
    const followed = shop.book.notices.some((other) => other.animal === one.animal && other.step === later && !other.voided);
    return act('pickup.voidNotice', { id: one.id, reason: dice.pick(REASONS) }, {
      refuse: because([one === NO_NOTICE || one.voided, 'notice.unknown'], [!one.voided && followed, 'notice.followed']),
      done: () => void (one.voided = true),
    });
  },
}; // prettier-ignore
