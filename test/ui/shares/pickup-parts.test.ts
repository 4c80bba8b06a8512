// @vitest-environment happy-dom
import { beforeEach, expect, it, vi } from 'vitest';
import type { PickupShare } from '../../../src/bridge/contract.ts';
import PickupParts from '../../../src/ui/shares/PickupParts.vue';
import { useLanguage } from '../../../src/ui/stores/language.ts';
import { SOURCE_LANGUAGE } from '../../../src/words/languages.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

it('shows a balance only once there is a bill', () => {
  const share = {
    hunterId: 1,
    name: 'Ann',
    share: 0.5,
    rows: [],
    packages: 0,
    grams: 0,
    dueMinor: 0,
    taken: null,
  };
  const textOf = (billed: boolean) =>
    mountPart(PickupParts, {
      props: { shares: [share as unknown as PickupShare], currency: 'USD', billed },
    }).text();
  expect(textOf(true)).toContain('$0.00');
  expect(textOf(false)).toContain('Not billed yet');
  expect(textOf(false)).not.toContain('$0.00');
});

it('counts packages in the language of the window', async () => {
  const share = {
    hunterId: 1,
    name: 'Ann',
    phone: '',
    share: 0.5,
    typed: '50',
    basis: 'percent' as const,
    rows: [{ product: 'Roasts', batch: null, count: 3, grams: 3000 }],
    packages: 3,
    grams: 3000,
    dueMinor: 0,
    taken: null,
  };
  await useLanguage().choose('es-MX');
  const parts = mountPart(PickupParts, { props: { shares: [share], currency: 'USD', billed: false } });
  expect(parts.text()).toContain('3 paquetes de Roasts');
  await useLanguage().choose(SOURCE_LANGUAGE);
});
