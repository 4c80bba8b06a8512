// @vitest-environment happy-dom
/** What a removed station shows of its entries: nothing that was typed goes unsaid. */
import { expect, it, vi } from 'vitest';
import type { Outcome } from '../../../../src/bridge/client/station/outbox.ts';
import ShutPage from '../../../../src/ui/station/frame/ShutPage.vue';
import { mountPart } from '../../mount-part.ts';
import { openStation } from '../station-window.ts';

vi.mock('../../../../src/bridge/client/index.ts', async () => (await import('../../played-desk.ts')).client);
vi.mock('../../../../src/ui/station/kept/entries.ts', async () => (await import('../kept-entries.ts')).kept);

const problem = { kind: 'conflict', code: 'weighing.twice' } as const;
const OUTCOMES: readonly Outcome[] = [
  { state: 'saved', answer: { id: 1 } },
  { state: 'asks', problem },
  { state: 'refused', problem },
  { state: 'dropped', problem },
  { state: 'waiting' },
];

it('lists what waits and what the desk doubted or refused, and neither what is saved nor what was let go', async () => {
  const station = await openStation();
  for (const [n, outcome] of OUTCOMES.entries()) {
    await station.line.save('coolers.logTemperature', { coolerId: 4, typed: `3${n}` }, `Entry ${n}`);
    await station.answer(outcome);
  }
  const wrapper = mountPart(ShutPage, { props: { why: 'removed' } });
  expect(wrapper.findAll('.what').map((one) => one.text())).toEqual(['Entry 1', 'Entry 2', 'Entry 4']);
});
