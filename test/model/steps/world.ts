/** What happens around the desk: the clock, restarts, another computer, backups and the way back, the demo. */
import { existsSync } from 'node:fs';
import { act, because, type Step } from '../step.ts';
import type { Driver, Window } from '../driver.ts';
import { clockDoubt } from '../clock.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
/** No clock is set to a later moment than this. */
const LAST = Date.parse('2099-11-01T12:00:00Z');
/** Where clocks end up whose battery is empty, or that somebody set wrongly. */
const FAR = [
  '1970-01-01T00:00:10Z',
  '2126-11-20T15:00:00Z',
  '2019-12-31T23:59:00Z',
  '2038-01-19T03:14:08Z',
  '2099-11-30T12:00:00Z',
];

export const clock: Step = {
  weight: 1.5,
  calls: [],
  draw(shop, dice) {
    const jump = dice.pick([DAY, 8 * DAY, 40 * DAY, -HOUR, -40 * DAY, 200 * DAY, 500 * DAY, 0]);
    const to = jump === 0 ? Date.parse(dice.pick(FAR)) : shop.now + jump;
    return { deed: `the clock shows ${new Date(to).toISOString()}`, run: async () => void (shop.now = to) };
  },
};

/** Somebody looks at the clock and sets it right, or says that it is. */
export const rightClock: Step = {
  weight: 1,
  calls: ['shop.trustClock'],
  draw(shop, dice) {
    const newest = Math.max(...Object.values(shop.book.lastEntries), 0);
    const { refuse, may } = clockDoubt(shop);
    if (refuse.length > 0 && newest > 0 && (dice.onceIn(2) || refuse.includes('clock.impossible')))
      return { deed: 'the clock is set right', run: async () => void (shop.now = Math.min(trustedOr(shop.book.trusted, newest) + HOUR, LAST)) };
    return act('shop.trustClock', { by: 'RO' }, {
      refuse: because([refuse.includes('clock.impossible'), 'clock.impossible']),
      may: may.filter((code) => code === 'clock.impossible'),
      done: () => void (shop.book.trusted = { at: shop.now, newest: newest === 0 ? null : newest }),
    });
  },
}; // prettier-ignore

/** Once somebody said that the clock is right, it is right from there on. */
function trustedOr(trusted: { at: number; newest: number | null } | null, newest: number): number {
  return trusted && trusted.newest !== null && newest <= trusted.newest ? trusted.at : newest;
}

export const restart: Step = {
  weight: 0.6,
  calls: [],
  draw: () => ({
    deed: 'the program is closed and started again',
    async run(driver) {
      await otherLeaves(driver);
      driver.letGo();
      driver.desks[0]?.close();
      await driver.openDesk(0);
      driver.lookAnew();
    },
  }),
};

async function otherLeaves(driver: Driver): Promise<void> {
  driver.desks[1]?.close();
  driver.desks[1] = null;
  driver.windows = driver.windows.filter(({ desk }) => desk === 0);
}

/** A second computer opens the same book, or leaves it. */
export const otherComputer: Step = {
  weight: 0.5,
  calls: [],
  draw: () => ({
    deed: 'another computer opens the book, or leaves it',
    async run(driver) {
      if (driver.desks[1]) return otherLeaves(driver);
      if (driver.inDemo) return;
      await driver.openDesk(1);
      driver.windows.push({ desk: 1, opening: driver.openings[1] ?? null });
    },
  }),
};

export const backUp: Step = {
  weight: 0.6,
  calls: ['shop.backUp'],
  draw: () => ({
    deed: 'a backup',
    async run(driver, window = driver.windows[0] as Window) {
      const held = structuredClone(driver.shop.book);
      await driver.perform(
        act('shop.backUp', {}, {
          may: ['backup.demo'],
          done: ({ path }) => void (driver.inDemo || driver.backups.set(path, held)),
        }),
        window,
      );
    },
  }),
}; // prettier-ignore

/** Backups from before details were removed are made anew. */
export const renewBackups: Step = {
  weight: 0.3,
  calls: ['shop.renewBackups'],
  draw: (shop) =>
    act('shop.renewBackups', { by: 'RO' }, {
      refuse: because([!shop.book.hunters.some(({ removed }) => removed), 'backup.none-before']),
      may: ['backup.none-before'],
    }),
}; // prettier-ignore

/** Tries a backup, or puts it in the book's place. */
export const restore: Step = {
  weight: 0.5,
  calls: ['shop.restore', 'shop.tryBackup'],
  draw: (_, dice) => {
    const [which, tries] = [dice.below(100), dice.onceIn(2)];
    return { deed: tries ? 'a backup is tried' : 'a backup is restored', run: (driver) => wayBack(driver, which, tries) };
  },
}; // prettier-ignore

async function wayBack(driver: Driver, which: number, tries: boolean): Promise<void> {
  // Leaving makes a backup, and thins others.
  if (!tries) await otherLeaves(driver);
  const there = [...driver.backups.keys()].filter((path) => existsSync(path));
  const path = there[which % Math.max(1, there.length)];
  if (!path) return;
  const held = structuredClone(driver.backups.get(path)) as Driver['shop']['book'];
  if (tries) {
    const { animals, weighings, payments } = held;
    await driver.perform(act('shop.tryBackup', { path }, {
      done(found) {
        const counts = [found.animals, found.weighings, found.payments];
        if (counts.join() !== [animals.length, weighings.length, payments.length].join()) throw new Error(`the backup holds ${counts.join()}`);
      },
    }));
    return;
  }
  const before = structuredClone(driver.shop.book);
  driver.letGo();
  const done = await driver.perform(act('shop.restore', { path }, {
    refuse: driver.inDemo ? ['backup.demo'] : [],
    done: ({ setAside }) => void (setAside && driver.backups.set(setAside, before)),
  }));
  if (done === null) return driver.lookAnew();
  driver.shop.book = held;
  driver.lookAnew();
  await driver.learnOpening(0);
} // prettier-ignore

/** Into the demo and out again; the shop's book lies untouched meanwhile. */
export const demo: Step = {
  weight: 0.06,
  calls: ['shop.openDemo', 'shop.leaveDemo'],
  draw: () => ({ deed: 'into the demo, or out of it', run: throughDemo }),
};

async function throughDemo(driver: Driver): Promise<void> {
  if (!driver.hasDemo) return;
  await otherLeaves(driver);
  driver.letGo();
  await driver.perform(act('shop.openDemo', {}), driver.windowAnew());
  driver.inDemo = true;
  await driver.learnOpening(0);
  for (const call of ['rail.get', 'pickup.get', 'season.yields', 'records.check', 'grinder.get'] as const)
    await driver.perform(act(call, {}), driver.windowAnew());
  await driver.perform(act('intake.takeIn', { hunter: { name: 'Visitor' }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned' }), driver.windowAnew());
  await driver.perform(act('shop.leaveDemo', {}), driver.windowAnew());
  driver.inDemo = false;
  await driver.learnOpening(0);
  driver.lookAnew();
} // prettier-ignore

/** A door that is open: nothing to try again, and no new book in place of a good one. */
export const atTheDoor: Step = {
  weight: 0.2,
  calls: ['shop.tryAgain', 'shop.beginAnew', 'shop.keepRecords'],
  draw(_, dice) {
    const call = dice.pick(['shop.tryAgain', 'shop.beginAnew', 'shop.keepRecords'] as const);
    return act(call, {}, { refuse: because([call === 'shop.keepRecords', 'book.not-altered']) });
  },
};

export const lockBackups: Step = {
  weight: 0.1,
  calls: ['shop.setLock'],
  draw: (_, dice) => {
    const passphrase = dice.pick([null, 'nine tails of a cat', 'short']);
    return act(
      'shop.setLock',
      { passphrase },
      { refuse: because([passphrase === 'short', 'passphrase.short']) },
    );
  },
};
