// @vitest-environment happy-dom
/**
 * Book-related state of a window is reset for another opening. State that outlives a page is in Pinia stores
 * (enforced by lint); every store is either tested here or listed with the reason for keeping it, so a new store
 * fails until added.
 */
import { createPinia, setActivePinia } from 'pinia';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { OTHER_OPENING } from '../../../src/bridge/client/other-opening.ts';
import type { AnimalPage, Changed, ShopView } from '../../../src/bridge/contract.ts';
import { nextTick } from 'vue';

/** Belongs to the computer, its user or the running window, and contains no record of a book. */
const STAYS: Readonly<Record<string, string>> = {
  language: 'the language of this device',
  line: 'the outbox of a station, which belongs to its device',
  opening: 'the opening itself',
  scale: 'the scale that is plugged into this computer',
  'seen-cautions': 'the cautions that were read at this window today',
  theme: 'light or dark, which follows the shop’s setting at each look',
  tour: 'how far a person has come in the tour of the demo',
  waiting: 'calls that take long',
};

const sources = import.meta.glob<string>('../../../src/ui/**/*.ts', {
  query: '?raw',
  import: 'default',
  eager: true,
});
const stores = Object.values(sources).flatMap((text) =>
  [...text.matchAll(/defineStore\('([^']+)'/g)].map((found) => found[1] ?? ''),
);

const calls: { name: string; opening: string | null }[] = [];
let answerNext: (name: string) => unknown;
let tell: (changed: Changed) => void;
vi.mock('../../../src/bridge/client/index.ts', () => ({
  connect: async () => ({
    call: async (name: string, _input: unknown, opening: string | null) => {
      calls.push({ name, opening });
      return answerNext(name);
    },
    on: (_event: string, listener: typeof tell) => {
      tell = listener;
      return () => undefined;
    },
  }),
}));

const look = (opening: string, more: Partial<ShopView> = {}): ShopView =>
  ({
    opening,
    demo: false,
    bookPath: '/shop.gambrel',
    staff: [{ initials: 'KM', name: 'Kim' }],
    ...more,
  }) as ShopView;

async function modules() {
  vi.resetModules();
  const { openBridge, ...bridge } = await import('../../../src/ui/link/bridge.ts');
  await openBridge();
  setActivePinia(createPinia());
  return {
    bridge,
    ...(await import('../../../src/ui/link/opening.ts')),
    ...(await import('../../../src/ui/stores/drafts.ts')),
    ...(await import('../../../src/ui/intake/useIntake.ts')),
    ...(await import('../../../src/ui/stores/rail.ts')),
    ...(await import('../../../src/ui/stores/shop.ts')),
    ...(await import('../../../src/ui/parts/toasts.ts')),
    ...(await import('../../../src/ui/table/confirmed-weights.ts')),
    ...(await import('../../../src/ui/calls/just-opened.ts')),
    ...(await import('../../../src/ui/calls/useCall.ts')),
  };
}
type Window = Awaited<ReturnType<typeof modules>>;

/** Sets a piece of state, and returns a function that reads what is left of it. */
interface Probe {
  use(window: Window): unknown;
  left(window: Window): unknown;
  fresh: unknown;
}

const CLEARED: Readonly<Record<string, Probe>> = {
  drafts: {
    use: ({ useDrafts }) => {
      Object.assign(
        useDrafts().of('table 12', () => ({ typed: '' })),
        { typed: '17.3' },
      );
      useDrafts().lastPlace = 'Shelf 4';
    },
    left: ({ useDrafts }) => [useDrafts().of('table 12', () => ({ typed: '' })).typed, useDrafts().lastPlace],
    fresh: ['', ''],
  },
  rail: {
    use: async ({ useRail }) => {
      useRail();
      await vi.waitFor(() => expect(useRail().hooks).toHaveLength(1));
      answerNext = () => ({ ok: false, problem: { kind: 'broken', code: 'desk.gone' } });
    },
    left: ({ useRail }) => useRail().hooks.length,
    fresh: 0,
  },
  shop: {
    use: () => undefined,
    left: ({ useShop }) => useShop().view?.opening,
    fresh: 'second',
  },
  intake: {
    use: ({ useIntake }) => Object.assign(useIntake().form, { name: 'Ann Alder', species: 'elk' }),
    left: ({ useIntake }) => [useIntake().form.name, useIntake().form.species],
    fresh: ['', ''],
  },
  toasts: {
    use: ({ toast }) => toast('Kept 5.55 lb', () => undefined),
    left: ({ useToasts }) => [useToasts().shown, useToasts().undoLast()],
    fresh: [null, false],
  },
  'stood by': {
    use: ({ useConfirmedWeights: useStoodBy }) => {
      useStoodBy().weighings.add(12);
      useStoodBy().confirmed.add(12);
      useStoodBy().animals.set(12, 3);
    },
    left: ({ useConfirmedWeights: useStoodBy }) => [
      useStoodBy().weighings.size,
      useStoodBy().confirmed.size,
      useStoodBy().animals.size,
    ],
    fresh: [0, 0, 0],
  },
  'just opened': {
    use: ({ useJustOpened }) => useJustOpened().put({ ticket: '26-0147' } as AnimalPage),
    left: ({ useJustOpened }) => useJustOpened().take('26-0147'),
    fresh: null,
  },
};

beforeEach(() => {
  localStorage.clear();
  calls.length = 0;
  answerNext = oneHangs;
});
const oneHangs = () => ({
  ok: true,
  value: { hooks: [{ days: 1, ticket: '26-0001', stage: 'hanging' }] },
});

/** What remains of state set in the first opening when the next view is of this opening. */
async function leftWhen(opening: string, { use, left }: Probe): Promise<unknown> {
  answerNext = oneHangs;
  const window = await modules();
  window.useShop().take(look('first'));
  await use(window);
  window.useShop().take(look(opening));
  return left(window);
}

it('covers every store', () =>
  expect(stores.sort()).toEqual([...Object.keys(STAYS), ...Object.keys(CLEARED)].sort()));

describe('another opening', () => {
  it.each(Object.entries(CLEARED))('resets %s', async (_, probe) => {
    expect(await leftWhen('first', probe)).not.toEqual(probe.fresh);
    expect(await leftWhen('second', probe)).toEqual(probe.fresh);
  });

  it('keeps separate initials for each book, and none for the demo', async () => {
    const { useShop } = await modules();
    const shop = useShop();
    const demo = look('demo', { demo: true, bookPath: '/tmp/demo.gambrel' });
    shop.take(look('first'));
    shop.by = 'KM';
    await vi.waitFor(() => expect(localStorage).toHaveLength(1));
    shop.take(demo);
    expect(shop.by).toBe('');
    shop.by = 'KM';
    await nextTick();
    expect(localStorage).toHaveLength(1);
    shop.take(look('third'));
    expect(shop.by).toBe('KM');
    shop.take(look('other', { bookPath: '/cabin.gambrel' }));
    expect(shop.by).toBe('');
  });

  it('is not reached by a call that was set up before it: the desk gets the intended opening', async () => {
    const { useShop, useCall, toast, useToasts } = await modules();
    useShop().take(look('first'));
    const take = useCall('table.void');
    useShop().take(look('second'));
    toast('shown late', () => void take.run({ weighingId: 7, reason: 'undone' }));
    expect(useToasts().undoLast()).toBe(true);
    expect(calls.at(-1)).toEqual({ name: 'table.void', opening: 'first' });
  });

  it("is the target of a store's call", async () => {
    const { useShop, useIntake } = await modules();
    useShop().take(look('first'));
    const intake = useIntake();
    useShop().take(look('second'));
    Object.assign(intake.form, { find: 'Ann Alder', species: 'elk', sex: 'male', brought: 'whole' });
    expect(await intake.save()).toBe(true);
    expect(calls.at(-1)).toEqual({ name: 'intake.takeIn', opening: 'second' });
  });

  it('ignores an answer from the previous book', async () => {
    const { useShop, useCall } = await modules();
    useShop().take(look('first'));
    const answer = useCall('table.void').run({ weighingId: 7, reason: 'misread' });
    useShop().take(look('second'));
    expect(await answer).toEqual(OTHER_OPENING);
  });

  it('is loaded when the desk reports it, in a change or in a refusal, and its changes do not count as ours', async () => {
    const { bridge, useShop } = await modules();
    const heard: string[] = [];
    bridge.onOtherBook((ours) => heard.push(ours ? 'ours' : 'theirs'));
    useShop().take(look('first'));
    tell({ call: 'table.weigh', stale: null, opening: 'first' });
    expect(heard).toEqual([]);
    tell({ call: 'shop.openDemo', stale: null, opening: 'second' });
    expect(heard).toEqual(['theirs']);
    answerNext = () => OTHER_OPENING;
    await bridge.call('rail.get', {});
    expect(heard).toEqual(['theirs', 'theirs']);
    answerNext = () => (
      tell({ call: 'shop.leaveDemo', stale: null, opening: 'third' }),
      { ok: true, value: look('third') }
    );
    await bridge.callFor('first', 'shop.leaveDemo', {});
    expect(heard.at(-1)).toBe('ours');
  });

  it('counts as ours when the news of it comes after the answer, until this window shows it', async () => {
    const { bridge, useShop } = await modules();
    const heard: string[] = [];
    bridge.onOtherBook((ours) => heard.push(ours ? 'ours' : 'theirs'));
    useShop().take(look('first'));
    answerNext = () => ({ ok: true, value: { setAside: null, repaired: [] } });
    await bridge.callFor('first', 'shop.restore', { path: '/backup.gambrel' });
    tell({ call: 'shop.restore', stale: null, opening: 'second' });
    expect(heard).toEqual(['ours']);
    useShop().take(look('second'));
    tell({ call: 'shop.restore', stale: null, opening: 'third' });
    expect(heard).toEqual(['ours', 'theirs']);
    answerNext = () => (
      useShop().take(look('fourth')),
      { ok: true, value: { setAside: null, repaired: [] } }
    );
    await bridge.callFor('second', 'shop.restore', { path: '/backup.gambrel' });
    tell({ call: 'shop.restore', stale: null, opening: 'fifth' });
    expect(heard, 'loaded before the answer came').toEqual(['ours', 'theirs', 'theirs']);
  });
});
