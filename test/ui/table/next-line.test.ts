// @vitest-environment happy-dom
/** Where an animal goes next, as its page says it. */
import { beforeEach, expect, it } from 'vitest';
import type { AnimalPage } from '../../../src/bridge/contract.ts';
import NextLine from '../../../src/ui/table/steps/NextLine.vue';
import { mountPart, openWindow } from '../mount-part.ts';

beforeEach(() => openWindow());

const READY = {
  id: 3, ticket: '26-0012', stage: 'ready', hold: null, waitsFor: [], trimLeftGrams: 0, batches: [], packages: [], release: null, canceled: null,
  disposal: null, bill: { billed: true, number: 7, dueMinor: 0, currency: 'USD', totalMinor: 0, paidMinor: 0 }, sharers: [],
} as unknown as AnimalPage; // prettier-ignore
const HOLD = {
  id: 1,
  reason: 'CWD sample',
  sample: 'L-7',
  openedAt: '2026-11-20T15:00:00.000Z',
  positive: false,
};
const line = (more: object): string =>
  mountPart(NextLine, { props: { page: { ...READY, ...more } as AnimalPage } }).html();

it('leads to Pickup only while nothing holds the animal back', () => {
  expect(line({})).toContain('/pickup');
  expect(line({ hold: HOLD })).not.toContain('/pickup');
  expect(line({ waitsFor: [{ ticket: '26-0002', batch: 'G26-001', positive: false }] })).not.toContain(
    '/pickup',
  );
});
