// @vitest-environment happy-dom
import { beforeEach, expect, it, vi } from 'vitest';
import { createMemoryHistory, createRouter } from 'vue-router';
import type { AnimalPage } from '../../../src/bridge/contract.ts';
import OrdersCard from '../../../src/ui/table/OrdersCard.vue';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const INSTRUCTIONS = {
  cutsShare: 0.4, primals: [], fat: 'none', targetFat: null, grindProduct: '', alsoGround: [], packageGrams: 453.59237,
  extras: [], pricedExtras: {}, note: '',
}; // prettier-ignore

it.each(['hanging', 'cutting', 'packing', 'ready', 'released'] as const)('explains the consequence for an animal that is %s if the hunter was not asked', (stage) => {
  const page = {
    id: 7, ticket: '26-0007', stage, ordersStatus: 'not asked', instructions: INSTRUCTIONS, parts: [], species: { code: 'elk', primals: [] },
  } as unknown as AnimalPage;
  const router = createRouter({ history: createMemoryHistory(), routes: [{ path: '/:all(.*)', component: {} }] });
  const card = mountPart(OrdersCard, { props: { page }, global: { plugins: [router] } });
  const uncut = stage === 'hanging' || stage === 'cutting';
  expect(card.text().includes('not asked yet')).toBe(uncut);
  expect(card.text().includes('Ask the hunter before you cut')).toBe(uncut);
  expect(card.text().includes('was not asked before cutting')).toBe(!uncut);
}); // prettier-ignore
