// @vitest-environment happy-dom
/** The line at the top of an animal's page, which shows warnings regardless of scrolling. */
import { beforeEach, expect, it } from 'vitest';
import type { AnimalPage } from '../../../src/bridge/contract.ts';
import WhoLine from '../../../src/ui/table/WhoLine.vue';
import { mountPart, openWindow } from '../mount-part.ts';

beforeEach(() => openWindow());

const DEER = {
  ticket: '26-0012', formerTickets: [], species: { name: 'Mule deer', words: {}, primals: [] }, sex: 'male', age: 'adult',
  brought: 'skinned', parts: [], hunter: { name: 'Ann Alder' }, tag: '', where: '', days: 0, promisedOn: null, stage: 'packing',
  receivedOn: '2026-11-24', hold: null, hangState: 'well', waitsFor: [],
} as unknown as AnimalPage; // prettier-ignore
const line = (more: object): string =>
  mountPart(WhoLine, { props: { page: { ...DEER, ...more } as AnimalPage } }).text();
const waits = (positive: boolean) => ({ waitsFor: [{ ticket: '26-0002', batch: 'G26-001', positive }] });

it('reports that a batch waits for a result, or is affected by a positive one', () => {
  expect(line({})).not.toContain('do not release');
  expect(line(waits(false))).toContain('Ground with meat on hold: do not release');
  expect(line(waits(true))).toContain('Affected by a positive result: do not release');
});

it('reports so for a picked-up animal, whose hunter may be on the phone', () => {
  expect(line({ stage: 'released', ...waits(true) })).toContain('affected by a positive result');
  expect(line({ stage: 'released', ...waits(true) })).not.toContain('do not release');
});
