// @vitest-environment happy-dom
import { flushPromises } from '@vue/test-utils';
import { beforeEach, expect, it, vi } from 'vitest';
import { createMemoryHistory, createRouter } from 'vue-router';
import type { AnimalPage } from '../../../src/bridge/contract.ts';
import EditDialog from '../../../src/ui/record/EditDialog.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

/** Today is the 24th. */
it.each([['Promised for', '12/03/2026'], ['Received', '11/03/2026']])('a date without its month: %s', async (label, day) => {
  const router = createRouter({ history: createMemoryHistory(), routes: [{ path: '/:all(.*)', component: {} }] });
  const page = {
    id: 7, ticket: '26-0007', lacks: [], species: { code: 'elk', primals: [] }, sex: 'male', age: 'adult', brought: 'skinned', legs: 'off',
    origin: 'wild', hunter: { id: 1, name: 'Ann', address: '', phone: '' }, licence: '', tag: '', killDate: null, killArea: '',
    receivedOn: '2026-11-20', promisedOn: null, deliverer: { name: '', address: '' }, release: null, pieces: [], parts: [], sharers: [],
  } as unknown as AnimalPage;
  desk.answers['hunters.find'] = () => ok([]);
  mountPart(EditDialog, { props: { page, open: true }, global: { plugins: [router] } });
  await flushPromises();
  const found = [...document.querySelectorAll('label')].find((one) => one.textContent?.trim().startsWith(label));
  const field = document.getElementById(found?.htmlFor ?? '') as HTMLInputElement;
  field.value = '3';
  for (const event of ['input', 'change', 'blur']) field.dispatchEvent(new Event(event, { bubbles: true }));
  await flushPromises();
  expect(field.value).toBe(day);
}); // prettier-ignore
