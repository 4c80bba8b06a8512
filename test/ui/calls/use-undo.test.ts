// @vitest-environment happy-dom
/** An undo that the desk refuses reports the reason, wherever it was offered. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, expect, it, vi } from 'vitest';
import { createMemoryHistory, createRouter } from 'vue-router';
import type { AnimalPage, CoolerStatus, HeldGrind } from '../../../src/bridge/contract.ts';
import CleaningCard from '../../../src/ui/batch/CleaningCard.vue';
import AffectedList from '../../../src/ui/holds/AffectedList.vue';
import AffectedDialog from '../../../src/ui/holds/AffectedDialog.vue';
import HoldDialog from '../../../src/ui/holds/HoldDialog.vue';
import { useToasts } from '../../../src/ui/parts/toasts.ts';
import CoolerReadings from '../../../src/ui/rail/CoolerReadings.vue';
import { useStep } from '../../../src/ui/table/steps/useStep.ts';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const refused = () => ({ ok: false, problem: { kind: 'refused', code: 'animal.closed', with: { ticket: '26-0007' } } }) as const; // prettier-ignore
const router = () =>
  createRouter({ history: createMemoryHistory(), routes: [{ path: '/:all(.*)', component: {} }] });

/** Undoes the last action; the desk refuses. */
async function undoRefused(call: string): Promise<string | undefined> {
  await flushPromises();
  desk.answers[call] = refused;
  expect(useToasts().undoLast()).toBe(true);
  await flushPromises();
  expect(desk.calls.at(-1)?.name).toBe(call);
  return useToasts().shown?.text;
}

it('of what was done about an affected animal', async () => {
  const props = { page: { id: 3, ticket: '26-0003', affected: [] }, affects: { animals: [], batches: [], untraced: [] } };
  const list = mountPart(AffectedList, {
    props: props as unknown as { page: AnimalPage; affects: NonNullable<AnimalPage['affects']> },
    global: { plugins: [router()], stubs: { AffectedDialog: true } },
  });
  (list.findComponent(AffectedDialog) as unknown as { vm: { $emit(name: string, ...more: unknown[]): void } }).vm.$emit('saved', 5, '26-0007');
  expect(await undoRefused('animals.voidAffected')).toContain('26-0007');
}); // prettier-ignore

it('of a cleaning', async () => {
  desk.answers['grinder.saveCleaning'] = () => ok({ id: 4 });
  const grind: HeldGrind = { batchId: 4, batch: 'G26-004', held: [], cleaned: null, between: [] };
  const card = mountPart(CleaningCard, { props: { grind }, global: { plugins: [router()] } });
  await card.find('form').trigger('submit');
  expect(await undoRefused('grinder.voidCleaning')).toContain('26-0007');
});

it('of a voided reading', async () => {
  desk.answers['coolers.voidTemperature'] = () => ok({});
  const reading = { id: 9, c: 3, at: '2026-11-24T12:00:00Z', by: 'MK' };
  const cooler = { id: 1, name: 'Room 1', readings: [reading] } as unknown as CoolerStatus;
  const list = mountPart(CoolerReadings, { props: { cooler } });
  await list.find('button').trigger('click');
  await flushPromises();
  document.querySelector<HTMLButtonElement>('[role=group] button')!.click();
  await flushPromises();
  expect(desk.calls.at(-1)?.input).toMatchObject({ readingId: 9, reason: 'mistyped' });
  expect(await undoRefused('coolers.restoreTemperature')).toContain('26-0007');
});

it('of a released hold', async () => {
  desk.answers['animals.endHold'] = () => ok({});
  const page = { id: 7, ticket: '26-0007', hold: { reason: 'other', sample: '' } } as unknown as AnimalPage;
  const dialog = mountPart(HoldDialog, { props: { page, open: true } });
  await flushPromises();
  document.querySelector('form')!.dispatchEvent(new Event('submit', { cancelable: true }));
  await flushPromises();
  dialog.unmount();
  expect(await undoRefused('animals.hold')).toContain('26-0007');
});

it('of a change of stage', async () => {
  desk.answers['animals.setStage'] = () => ok({});
  const { step } = useStep(() => ({ id: 7, ticket: '26-0007', stage: 'hanging' }));
  await step('cutting');
  expect(await undoRefused('animals.setStage')).toContain('26-0007');
});
