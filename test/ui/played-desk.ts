/** A desk that a test answers for, and parts of the window mounted on it. It throws at a call that nobody answers. */
import { enableAutoUnmount, mount, type ComponentMountingOptions } from '@vue/test-utils';
import { createPinia, setActivePinia } from 'pinia';
import { afterEach } from 'vitest';
import type { Component } from 'vue';
import type { Answer, Changed, ShopLook } from '../../src/bridge/contract.ts';
import { openBridge } from '../../src/ui/bridge.ts';
import { useShop } from '../../src/ui/stores/shop.ts';

enableAutoUnmount(afterEach);

type Input = Record<string, unknown>;

export interface PlayedDesk {
  /** What was asked, in order. */
  calls: { name: string; input: Input }[];
  answers: Record<string, (input: Input) => Answer<unknown> | Promise<Answer<unknown>>>;
  /** Tells the window that something was written. */
  changed(changed: Changed): void;
}

const listeners = new Set<(changed: Changed) => void>();
export const desk: PlayedDesk = {
  calls: [],
  answers: {},
  changed: (changed) => listeners.forEach((listener) => listener(changed)),
};

/**
 * Stands in for `src/bridge/client/index.ts`:
 * `vi.mock('../../src/bridge/client/index.ts', async () => (await import('./played-desk.ts')).client)`.
 */
export const client = {
  connect: async () => ({
    call: async (name: string, input: Input) => {
      desk.calls.push({ name, input: structuredClone(input) });
      const answer = desk.answers[name];
      if (!answer) throw new Error(`Nobody answers for ${name}.`);
      return structuredClone(await answer(input));
    },
    on: (_event: string, listener: (changed: Changed) => void) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  }),
};

export const ok = (value: unknown = {}): Answer<unknown> => ({ ok: true, value });

const LOOK = {
  opening: 'first',
  demo: false,
  setUp: true,
  bookPath: '/shop.gambrel',
  season: 2026,
  today: '2026-11-24',
  staff: [],
  products: [],
  fatSources: [],
  species: [],
  speciesAway: [],
  cautions: [],
  seasons: [2026],
  settings: {
    unit: 'lb',
    step: 0.02,
    locale: 'en-US',
    currency: 'USD',
    zone: 'America/Denver',
    theme: 'light',
  },
} as unknown as ShopLook;

/** Begins a window anew in which this shop is open. */
export async function openWindow(look: Partial<ShopLook> = {}): Promise<void> {
  desk.calls.length = 0;
  desk.answers = {};
  listeners.clear();
  document.body.innerHTML = '';
  setActivePinia(createPinia());
  await openBridge();
  useShop().take({ ...LOOK, ...look });
}

/** Puts a part on the page of that window. */
export function mountPart<T extends Component>(part: T, options: ComponentMountingOptions<T> = {}) {
  return mount(part, { attachTo: document.body, ...options } as ComponentMountingOptions<T>);
}
