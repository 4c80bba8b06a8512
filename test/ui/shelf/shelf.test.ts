/** Forms of the shelf: values round-trip without drift, and invalid input is reported at its field. */
import { describe, expect, it } from 'vitest';
import type { ProductOnShelf, SpeciesOnShelf } from '../../../src/bridge/contract.ts';
import { emptyProduct, readProduct, typeProduct } from '../../../src/ui/shelf/product-form.ts';
import { readSpecies, speciesLike, typeSpecies } from '../../../src/ui/shelf/species-form.ts';
import { freshDesk } from '../../desk/fresh-desk.ts';

async function shelf(unit: 'lb' | 'kg') {
  const shop = await freshDesk(unit);
  return { shop, ...(await shop.call('shelf.get', {})) };
}
const deer = (species: SpeciesOnShelf[]) => species.find(({ code }) => code === 'white-tail')!;

describe('the form of a species', () => {
  it.each(['lb', 'kg'] as const)('sends no unchanged weight, in %s', async (unit) => {
    const { shop, species } = await shelf(unit);
    for (const row of species) {
      const { value } = readSpecies(typeSpecies(row, unit), row, unit);
      expect(value).not.toHaveProperty('typicalTyped');
      const saved = await shop.call('species.save', value!);
      expect(saved).toEqual({ ...row, own: true });
    }
  });

  it('sends all three weights when one was changed', async () => {
    const { species } = await shelf('lb');
    const row = deer(species);
    const typed = { ...typeSpecies(row, 'lb'), most: '250' };
    expect(readSpecies(typed, row, 'lb').value).toMatchObject({
      code: 'white-tail', typicalTyped: '70.55 lb', leastTyped: '13.23 lb', mostTyped: '250',
    }); // prettier-ignore
  });

  it('of a new one starts from its relative, without its name and its weights', async () => {
    const { shop, species } = await shelf('lb');
    const typed = speciesLike(deer(species));
    expect(typed).toMatchObject({
      like: 'white-tail',
      name: '',
      many: '',
      male: 'buck',
      typical: '',
    });
    expect(readSpecies(typed, null, 'lb')).toEqual({
      value: null,
      wrong: { name: 'Give it a name.', primals: {} },
    });
    const { value } = readSpecies({ ...typed, name: 'Sika Deer', typical: '60' }, null, 'lb');
    expect(value).toMatchObject({ many: 'sika deer', typicalTyped: '60', leastTyped: '' });
    expect(await shop.call('species.save', value!)).toMatchObject({ code: 'sika-deer', like: 'white-tail' });
  });

  it('shows the error at each primal', async () => {
    const { species } = await shelf('lb');
    const typed = { ...speciesLike(deer(species)), name: 'Sika', typical: '60' };
    typed.primals = [
      { code: '', name: ' ', pair: false, share: '10' },
      { code: '', name: 'Leg', pair: true, share: '0' },
      { code: '', name: 'Rib', pair: true, share: 'a lot' },
      { code: '', name: 'Neck', pair: false, share: '12,5' },
    ];
    expect(readSpecies(typed, null, 'lb').wrong.primals).toEqual({
      0: { name: 'Give it a name.' },
      1: { share: 'Type a percentage above 0.' },
      2: { share: 'Type a percentage above 0.' },
    });
  });
});

describe('the form of a product', () => {
  it.each(['lb', 'kg'] as const)('changes nothing without edits, in %s', async (unit) => {
    const { shop, products } = await shelf(unit);
    for (const row of products) {
      const { value } = readProduct(typeProduct(row, unit), row, unit);
      const saved: ProductOnShelf = await shop.call('products.save', value!);
      expect(saved).toEqual({ ...row, own: true, ingredients: row.ingredients });
    }
  });

  it('drops the percentage of a fat without target', async () => {
    const { products } = await shelf('lb');
    const patties = products.find(({ code }) => code === 'patties')!;
    const typed = { ...typeProduct(patties, 'lb'), fat: 'none' };
    expect(readProduct(typed, patties, 'lb').value).toMatchObject({ fat: 'none', targetFat: null });
    expect(readProduct({ ...typed, fat: '' }, patties, 'lb').value).toMatchObject({
      fat: null,
      targetFat: null,
    });
  });

  it.each(['0.4', '61', 'much', '-5'])('rejects %s % fat with a message', (target) => {
    const typed = { ...emptyProduct(), name: 'Links', fat: 'own', target };
    expect(readProduct(typed, null, 'lb')).toEqual({
      value: null, wrong: { target: 'Type a fat percentage from 0.5 to 60, or leave it empty.' },
    }); // prettier-ignore
  });
});
