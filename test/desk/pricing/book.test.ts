/** What a price book may say, and what it is refused for. */
import { describe, expect, it } from 'vitest';
import { freshDesk } from '../fresh-desk.ts';
import { priced, pricedShop, type PriceInput } from './priced-shop.ts';

const sausage = (code: string, more: Partial<PriceInput> = {}): PriceInput =>
  priced(code, 'product', { unit: 'lb', amountMinor: 275, kinds: ['sausage'], ...more });

describe('a price book', () => {
  it('keeps where tax is rounded', async () => {
    const shop = await pricedShop([priced('flat', 'animal', { amountMinor: 100 })], { taxRule: 'per bill' });
    expect(await shop.call('prices.get', {})).toMatchObject({ taxRule: 'per bill' });
    await shop.call('prices.save', { name: 'Next', validFrom: '2026-09-01', lines: [] });
    expect(await shop.call('prices.get', {})).toMatchObject({ taxRule: 'per line' });
  });

  it.each<[string, PriceInput[], string]>([
    ['no price', [priced('flat', 'animal')], 'price.amount'],
    ['a price by weight below zero', [priced('flat', 'hanging', { unit: 'lb', amountMinor: -1 })], 'money.negative'],
    ['half a cent', [priced('flat', 'animal', { amountMinor: 0.5 })], 'money.unreadable'],
    ['a price and a percentage', [priced('flat', 'animal', { amountMinor: 1, rate: 0.1 })], 'price.amount'],
    ['a discount without percentage', [priced('early', 'percent')], 'price.amount'],
    ['a deposit of both kinds', [priced('deposit', 'deposit', { amountMinor: 1, rate: 0.1 })], 'price.amount'],
    ['a deposit of neither', [priced('deposit', 'deposit')], 'price.amount'],
    ['a deposit below zero', [priced('deposit', 'deposit', { rate: -0.1 })], 'price.negative'],
    ['a weight without unit', [priced('hang', 'hanging', { amountMinor: 1 })], 'price.unit'],
    ['a product that is not what it is charged by', [priced('skin', 'animal', { amountMinor: 1, products: ['ground'] })], 'price.not-by-product'],
    ['a product without name', [sausage('a', { kinds: [] })], 'price.not-named'],
    ['a fat without name', [priced('fat', 'fat', { unit: 'lb', amountMinor: 1 })], 'price.not-named'],
    ['an unknown tax rule', [], 'choice.tax-rule'],
    ['one code twice', [priced('a', 'animal', { amountMinor: 1 }), priced('a', 'package', { amountMinor: 1 })], 'price.twice'],
    ['one product twice', [sausage('a'), sausage('b')], 'price.same-thing'],
    ['one product twice for some', [sausage('a'), sausage('b', { species: ['elk'] })], 'price.same-thing'],
    ['discounts over all', [priced('a', 'percent', { rate: -0.6 }), priced('b', 'percent', { rate: -0.41 })], 'price.discount-over-all'],
  ])('is refused for %s', async (_, lines, code) => {
    const shop = await freshDesk();
    const taxRule = code === 'choice.tax-rule' ? 'per moon' : 'per line';
    const asked = { name: 'Prices', validFrom: '2026-09-01', taxRule, lines };
    expect(await shop.problem('prices.save', asked)).toMatchObject({ kind: 'invalid', code });
    expect((await shop.call('prices.get', {})).example).toBe(true);
  }); // prettier-ignore

  it.each<[string, PriceInput[]]>([
    ['one product for two species', [sausage('a', { species: ['elk'] }), sausage('b', { species: ['moose'] })]],
    ['one product by how it came in', [sausage('a', { brought: ['whole'] }), sausage('b', { brought: ['boned'] })]],
    ['two smallest charges', [priced('a', 'minimum', { amountMinor: 1 }), priced('b', 'minimum', { amountMinor: 2 })]],
    ['discounts of exactly all', [priced('a', 'percent', { rate: -0.7 }), priced('b', 'percent', { rate: -0.2 }), priced('c', 'percent', { rate: -0.1 })]],
    ['large discounts that never meet', [priced('a', 'percent', { rate: -0.8, species: ['elk'] }), priced('b', 'percent', { rate: -0.8, species: ['moose'] })]],
    ['a deposit by percentage', [priced('deposit', 'deposit', { rate: 0.5 })]],
  ])('may have %s', async (_, lines) => {
    const shop = await pricedShop(lines);
    expect((await shop.call('prices.get', {})).lines).toEqual(lines);
  }); // prettier-ignore
});
