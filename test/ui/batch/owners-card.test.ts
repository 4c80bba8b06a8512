// @vitest-environment happy-dom
/** A pooled batch divided among its owners. */
import { beforeEach, expect, it } from 'vitest';
import type { BatchPage } from '../../../src/bridge/contract.ts';
import OwnersCard from '../../../src/ui/batch/OwnersCard.vue';
import { mountPart, openWindow } from '../mount-part.ts';

beforeEach(() => openWindow());

const owner = (ticket: string, shownShareGrams: number, packages: number) =>
  ({
    ticket,
    hunter: 'Ada Mabry',
    shownLeanGrams: 4536,
    shownShareGrams,
    packages,
  }) as BatchPage['owners'][number];
const headings = (owners: BatchPage['owners']): string[] =>
  mountPart(OwnersCard, { props: { owners } })
    .findAll('th')
    .map((one) => one.text());

it('has columns of shares and packages once something stands in them', () => {
  expect(headings([owner('26-0001', 0, 0), owner('26-0002', 0, 0)])).toHaveLength(3);
  expect(headings([owner('26-0001', 4000, 0), owner('26-0002', 4000, 0)])).toHaveLength(4);
  expect(headings([owner('26-0001', 4000, 4), owner('26-0002', 4000, 3)])).toHaveLength(5);
});
