/**
 * What a window remembers of a book goes when another opening is shown. Every piece of state that outlives a page is
 * found in the sources, and either cleared here or kept for a reason: a new one fails until it stands below.
 */
import { globSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { createPinia, setActivePinia } from 'pinia';
import ts from 'typescript';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { OTHER_OPENING } from '../../src/bridge/client/other-opening.ts';
import type { AnimalPage, Changed, ShopLook } from '../../src/bridge/contract.ts';

const SRC = resolve(import.meta.dirname, '../../src');
/** Calls that make state which changes. */
const MAKERS = /^(ref|shallowRef|reactive|shallowReactive|customRef|defineStore)$/;

/** Names of everything at the top of a module that can change while it is loaded, and its uses of the browser's stores. */
function stateIn(file: string): string[] {
  const text = readFileSync(join(SRC, file), 'utf8');
  const stores = /\b(local|session)Storage\b/.test(text.replaceAll(/\/\*[^]*?\*\//g, '')) ? ['storage'] : [];
  if (file.endsWith('.vue')) return /<script lang="ts">/.test(text) ? ['script', ...stores] : stores;
  const found: string[] = [];
  for (const statement of ts.createSourceFile(file, text, ts.ScriptTarget.Latest).statements) {
    if (!ts.isVariableStatement(statement)) continue;
    const { flags, declarations } = statement.declarationList;
    for (const { name, type, initializer } of declarations)
      if (ts.isIdentifier(name) && (!(flags & ts.NodeFlags.Const) || changes(initializer, type)))
        found.push(name.text);
  }
  return [...found, ...stores];
}

function changes(value: ts.Expression | undefined, type: ts.TypeNode | undefined): boolean {
  if (!value) return false;
  const declared =
    type && ts.isTypeReferenceNode(type) && ts.isIdentifier(type.typeName) ? type.typeName.text : '';
  const nameOf = (one: ts.Expression) => (ts.isIdentifier(one) ? one.text : '');
  if (ts.isCallExpression(value)) return MAKERS.test(nameOf(value.expression));
  if (ts.isNewExpression(value))
    return /^(Weak)?(Map|Set)$/.test(nameOf(value.expression)) && !/^Readonly(Map|Set)$/.test(declared);
  return ts.isArrayLiteralExpression(value) && value.elements.length === 0;
}

/** Belongs to the computer, its person or the running window, and names no record of a book. */
const STAYS: Readonly<Record<string, string>> = {
  'bridge/client/index.ts storage': 'the pass of this window, which the server gave it',
  'ui/opening.ts shown': 'the opening itself',
  'ui/opening.ts resets': 'what is called when it changes',
  'ui/bridge.ts bridge': 'the way to the desk',
  'ui/bridge.ts opening': 'calls on their way',
  'ui/bridge.ts otherBook': 'listeners of this window',
  'ui/parts/toasts.ts last': 'numbers of messages, used once each',
  'ui/labels/remembered.ts storage': 'the sizes that this computer’s printers print on',
  'ui/scale/useScale.ts useScale': 'the scale that is plugged into this computer',
  'ui/scale/useScale.ts storage': 'the same',
  'ui/tour/tour.ts kept': 'how far a person has come in the tour of the demo',
  'ui/tour/tour.ts storage': 'the same',
  'ui/use/theme.ts wish': 'light or dark; the shop’s setting is applied at each look',
  'ui/use/theme.ts current': 'the same',
  'ui/use/theme.ts printing': 'whether this window is being printed',
  'ui/use/waiting.ts slow': 'calls that take long',
  'ui/greeting/currencies.ts POUND_REGIONS': 'a list that nobody changes',
  'ui/intake/useIntake.ts shownFields': 'a list that nobody changes',
};

const calls: { name: string; opening: string | null }[] = [];
let answerNext: (name: string) => unknown;
let tell: (changed: Changed) => void;
vi.mock('../../src/bridge/client/index.ts', () => ({
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

const look = (opening: string, more: Partial<ShopLook> = {}): ShopLook =>
  ({
    opening,
    demo: false,
    bookPath: '/shop.gambrel',
    staff: [{ initials: 'KM', name: 'Kim' }],
    ...more,
  }) as ShopLook;

async function modules() {
  const { openBridge, ...bridge } = await import('../../src/ui/bridge.ts');
  await openBridge();
  setActivePinia(createPinia());
  return {
    bridge,
    ...(await import('../../src/ui/opening.ts')),
    ...(await import('../../src/ui/stores/drafts.ts')),
    ...(await import('../../src/ui/intake/useIntake.ts')),
    ...(await import('../../src/ui/stores/rail.ts')),
    ...(await import('../../src/ui/stores/shop.ts')),
    ...(await import('../../src/ui/parts/toasts.ts')),
    ...(await import('../../src/ui/table/believed.ts')),
    ...(await import('../../src/ui/frame/just-opened.ts')),
    ...(await import('../../src/ui/use/useCall.ts')),
  };
}
type Window = Awaited<ReturnType<typeof modules>>;

/** Uses a piece of state, and tells what is left of it. */
interface Probe {
  use(window: Window): unknown;
  left(window: Window): unknown;
  fresh: unknown;
}

const CLEARED: Readonly<Record<string, Probe>> = {
  'ui/stores/drafts.ts useDrafts': {
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
  'ui/stores/rail.ts useRail': {
    use: async ({ useRail }) => {
      useRail();
      await vi.waitFor(() => expect(useRail().hooks).toHaveLength(1));
      answerNext = () => ({ ok: false, problem: { kind: 'broken', code: 'desk.gone' } });
    },
    left: ({ useRail }) => useRail().hooks.length,
    fresh: 0,
  },
  'ui/stores/shop.ts useShop': {
    use: () => undefined,
    left: ({ useShop }) => useShop().look?.opening,
    fresh: 'second',
  },
  'ui/intake/useIntake.ts useIntake': {
    use: ({ useIntake }) => Object.assign(useIntake().form, { name: 'Ann Alder', species: 'elk' }),
    left: ({ useIntake }) => [useIntake().form.name, useIntake().form.species],
    fresh: ['', ''],
  },
  'ui/stores/shop.ts storage': {
    use: async ({ useShop }) => {
      useShop().take(look('demo', { demo: true, bookPath: '/tmp/demo.gambrel' }));
      useShop().by = 'KM';
      await Promise.resolve();
    },
    left: () => stored.size,
    fresh: 0,
  },
  'ui/parts/toasts.ts shown': {
    use: ({ toast }) => toast('Kept 5.55 lb', () => undefined),
    left: ({ toasts, undoLast }) => [toasts.value.length, undoLast()],
    fresh: [0, false],
  },
  'ui/table/believed.ts believed': {
    use: ({ believed }) => believed.add(12),
    left: ({ believed }) => believed.size,
    fresh: 0,
  },
  'ui/table/believed.ts confirmed': {
    use: ({ confirmed }) => confirmed.add(12),
    left: ({ confirmed }) => confirmed.size,
    fresh: 0,
  },
  'ui/table/believed.ts stoodBy': {
    use: ({ stoodBy }) => stoodBy.set(12, 3),
    left: ({ stoodBy }) => stoodBy.size,
    fresh: 0,
  },
  'ui/frame/just-opened.ts opened': {
    use: ({ keepOpened }) => keepOpened({ ticket: '26-0147' } as AnimalPage),
    left: ({ takeOpened }) => takeOpened('26-0147'),
    fresh: null,
  },
};

let stored: Map<string, string>;
beforeEach(() => {
  vi.resetModules();
  stored = new Map();
  calls.length = 0;
  answerNext = () => ({ ok: true, value: { hooks: [{ days: 1, ticket: '26-0001', stage: 'hanging' }] } });
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => stored.get(key) ?? null,
    setItem: (key: string, value: string) => stored.set(key, value),
  });
  vi.stubGlobal('window', { addEventListener: () => undefined });
  vi.stubGlobal('document', { documentElement: { dataset: {} } });
  vi.stubGlobal('matchMedia', () => ({ matches: false, addEventListener: () => undefined }));
});

it('finds every piece of state that outlives a page, and knows what becomes of it', () => {
  const files = globSync(['ui/**/*.{ts,vue}', 'bridge/client/*.ts'], { cwd: SRC }).sort();
  const found = files.flatMap((file) => stateIn(file).map((name) => `${file} ${name}`));
  expect(found.sort()).toEqual([...Object.keys(STAYS), ...Object.keys(CLEARED)].sort());
});

it('has the calls of stores, which live on, mean the book that is shown', () => {
  const stores = globSync('ui/**/*.ts', { cwd: SRC }).map((file) => readFileSync(join(SRC, file), 'utf8'));
  const called = stores
    .filter((text) => text.includes('defineStore('))
    .flatMap((text) => text.match(/useCall\(.*?\)/g) ?? []);
  expect(called).toEqual(["useCall('intake.takeIn', 'shown')"]);
});

it('begins every page anew: nothing of one outlives the book that it shows', () => {
  const app = readFileSync(join(SRC, 'ui/App.vue'), 'utf8');
  expect(app.match(/<(Greeting|Frame) [^>]*:key="shop\.look\.opening"/g)).toHaveLength(2);
});

describe('another opening', () => {
  it.each(Object.entries(CLEARED))('clears %s', async (_, { use, left, fresh }) => {
    const window = await modules();
    window.useShop().take(look('first'));
    await use(window);
    if (!/storage$/.test(_)) expect(await left(window)).not.toEqual(fresh);
    window.useShop().take(look('second'));
    expect(await left(window)).toEqual(fresh);
  });

  it('gives each book its own person, and none to the demo', async () => {
    const { useShop } = await modules();
    const shop = useShop();
    const demo = look('demo', { demo: true, bookPath: '/tmp/demo.gambrel' });
    shop.take(look('first'));
    shop.by = 'KM';
    await vi.waitFor(() => expect(stored.size).toBe(1));
    shop.take(demo);
    expect(shop.by).toBe('');
    shop.by = 'KM';
    shop.take(look('third'));
    expect(shop.by).toBe('KM');
    shop.take(look('other', { bookPath: '/cabin.gambrel' }));
    expect(shop.by).toBe('');
  });

  it('is not reached by a call that was set up before it: the desk is told which one was meant', async () => {
    const { useShop, useCall, toast, undoLast } = await modules();
    useShop().take(look('first'));
    const take = useCall('table.void');
    useShop().take(look('second'));
    toast('shown late', () => void take.run({ weighingId: 7, reason: 'undone' }));
    expect(undoLast()).toBe(true);
    expect(calls.at(-1)).toEqual({ name: 'table.void', opening: 'first' });
  });

  it('is meant by a call of a store', async () => {
    const { useShop, useCall } = await modules();
    useShop().take(look('first'));
    const takeIn = useCall('intake.takeIn', 'shown');
    useShop().take(look('second'));
    expect(await takeIn.run({} as never)).toMatchObject({ ok: true });
    expect(calls.at(-1)).toEqual({ name: 'intake.takeIn', opening: 'second' });
  });

  it('hears nothing of an answer from the book before', async () => {
    const { useShop, useCall } = await modules();
    useShop().take(look('first'));
    const answer = useCall('table.void').run({ weighingId: 7, reason: 'misread' });
    useShop().take(look('second'));
    expect(await answer).toEqual(OTHER_OPENING);
  });

  it('is looked for when the desk says so, in a change or in a refusal, and changes of it are not taken for ours', async () => {
    const { bridge, useShop } = await modules();
    const heard: string[] = [];
    bridge.onOtherBook((ours) => heard.push(ours ? 'ours' : 'theirs'));
    useShop().take(look('first'));
    tell({ call: 'table.weigh', opening: 'first' });
    expect(heard).toEqual([]);
    tell({ call: 'shop.openDemo', opening: 'second' });
    expect(heard).toEqual(['theirs']);
    answerNext = () => OTHER_OPENING;
    await bridge.call('rail.look', {});
    expect(heard).toEqual(['theirs', 'theirs']);
    answerNext = () => (
      tell({ call: 'shop.leaveDemo', opening: 'third' }),
      { ok: true, value: look('third') }
    );
    await bridge.callFor('first', 'shop.leaveDemo', {});
    expect(heard.at(-1)).toBe('ours');
  });
});
