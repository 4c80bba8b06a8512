// @vitest-environment happy-dom
/** The fields of a season's filter. */
import { beforeEach, expect, it, vi } from 'vitest';
import FilterFields from '../../../src/ui/season-frame/FilterFields.vue';
import { useShop } from '../../../src/ui/stores/shop.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

it('name the chosen species also when the season has none of it', () => {
  const species = { code: 'cougar', name: 'Cougar' } as ReturnType<ReturnType<typeof useShop>['species']>;
  vi.spyOn(useShop(), 'species').mockReturnValue(species);
  const fields = mountPart(FilterFields, {
    props: { filter: { species: 'cougar' }, choices: { species: [], cutters: [], days: null }, show: 'few' } as never,
  });
  const select = fields.find('select').element;
  expect(select.selectedOptions[0]?.text).toBe('Cougar');
}); // prettier-ignore
