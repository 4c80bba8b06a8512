// @vitest-environment happy-dom
import { flushPromises } from '@vue/test-utils';
import { beforeEach, expect, it, vi } from 'vitest';
import type { AnimalPage, WeighingRow } from '../../../src/bridge/contract.ts';
import MoveDialog from '../../../src/ui/weighing/MoveDialog.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const FOUND = { id: 8, ticket: '26-0008', hunter: 'Ann', speciesName: 'Elk' };

/** Types a ticket and presses Enter at once. */
async function moveTo(typed: string) {
  desk.answers['animals.find'] = async () => {
    await new Promise((done) => setTimeout(done, 150));
    return ok([FOUND]);
  };
  desk.answers['table.move'] = () => ok({ weighingId: 9, ticket: '26-0008' });
  const page = { id: 7, ticket: '26-0007', primals: [] } as unknown as AnimalPage;
  const weighing = {
    id: 3,
    stage: 'cut',
    part: 'trim',
    typed: '18.2',
    unit: 'lb',
    primal: null,
  } as WeighingRow;
  const dialog = mountPart(MoveDialog, { props: { page, weighing: null } });
  await dialog.setProps({ weighing });
  await flushPromises();
  const ticket = document.querySelector<HTMLInputElement>('form input')!;
  ticket.value = typed;
  ticket.dispatchEvent(new Event('input'));
  await flushPromises();
  document.querySelector('form')!.dispatchEvent(new Event('submit', { cancelable: true }));
  await vi.waitFor(() => expect(desk.calls.some(({ name }) => name === 'animals.find')).toBe(true));
  await new Promise((done) => setTimeout(done, 400));
  return desk.calls.filter(({ name }) => name === 'table.move').map(({ input }) => input.animalId);
}

it('waits for the search of a ticket that was typed a moment ago', async () => {
  expect(await moveTo('26-0008')).toEqual([8]);
});

it('moves nothing to a ticket that is not in the book', async () => {
  expect(await moveTo('26-0099')).toEqual([]);
  expect(document.body.textContent).toContain('26-0099');
});
