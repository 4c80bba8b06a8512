// @vitest-environment happy-dom
import { beforeEach, expect, it, vi } from 'vitest';
import type { PickupShare } from '../../../src/bridge/contract.ts';
import PickupParts from '../../../src/ui/shares/PickupParts.vue';
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
