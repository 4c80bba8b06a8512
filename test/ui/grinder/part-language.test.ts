// @vitest-environment happy-dom
import { beforeEach, expect, it, vi } from 'vitest';
import type { PlanPart } from '../../../src/bridge/contract.ts';
import { planTerms } from '../../../src/ui/grinder/plan-terms.ts';
import { ordersSummary } from '../../../src/ui/orders/orders-lines.ts';
import { useLanguage } from '../../../src/ui/stores/language.ts';
import { SOURCE_LANGUAGE } from '../../../src/words/languages.ts';
import { openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const trim: PlanPart = {
  key: 'trim 1', kind: 'trim', ticket: '26-0001', fatName: null, lotCode: null, animalId: 1,
  fatLotId: null, grams: 9000, share: 1, fat: 0.05,
}; // prettier-ignore

it('names trim by its ticket, and what stands before a colon, as the language of the window does', async () => {
  await useLanguage().choose('fr-CA');
  expect(planTerms([trim])[0]?.label).toBe('Parures de 26-0001');
  expect(ordersSummary([{ kind: 'pack', head: 'Paquets', text: '2 lb' }])).toBe('Paquets\u00a0: 2 lb');
  await useLanguage().choose(SOURCE_LANGUAGE);
  expect(planTerms([trim])[0]?.label).toBe('Trim of 26-0001');
});
