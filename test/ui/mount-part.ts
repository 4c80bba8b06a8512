/** Mounts parts of the window on a fake desk. */
import { mount, type ComponentMountingOptions } from '@vue/test-utils';
import { createPinia, setActivePinia } from 'pinia';
import type { Component } from 'vue';
import type { ShopView } from '../../src/bridge/contract.ts';
import { openBridge } from '../../src/ui/link/bridge.ts';
import { useLanguage } from '../../src/ui/stores/language.ts';
import { useShop } from '../../src/ui/stores/shop.ts';
import { desk } from './played-desk.ts';

const LOOK = {
  opening: 'first',
  demo: false,
  setUp: true,
  bookPath: '/shop.gambrel',
  season: 2026,
  today: '2026-11-24',
  staff: [],
  products: [],
  recipes: [],
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
} as unknown as ShopView;

/** Starts a new window with this shop. */
export async function openWindow(look: Partial<ShopView> = {}): Promise<void> {
  desk.begin();
  document.body.innerHTML = '';
  setActivePinia(createPinia());
  await openBridge();
  useShop().take({ ...LOOK, ...look });
  useLanguage();
}

/** Mounts a part on the page of that window. */
export function mountPart<T extends Component>(part: T, options: ComponentMountingOptions<T> = {}) {
  return mount(part, { attachTo: document.body, ...options } as ComponentMountingOptions<T>);
}
