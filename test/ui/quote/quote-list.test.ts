// @vitest-environment happy-dom
/** Saved quotes are found by what their list says, in the window's own words, with or without accents. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, expect, it, vi } from 'vitest';
import QuoteList from '../../../src/ui/quote/QuoteList.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

const quote = (id: number, hunter: string, speciesName: string) => ({
  id, hunter, speciesName, name: `Q26-00${id}`, createdOn: '2026-11-01', validUntil: '2026-12-01', low: null, high: null, currency: null,
}); // prettier-ignore
// As the desk answers a window in Spanish.
const quotes = [
  quote(11, 'José Bagley', 'Venado cola blanca'), quote(12, 'Ida Roe', 'Wapití (elk)'), quote(13, '', 'Berrendo'),
  quote(14, 'Al Ash', 'Venado cola blanca'), quote(15, 'Bo Ash', 'Bisonte'), quote(16, 'Cy Ash', 'Berrendo'),
]; // prettier-ignore

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(async () => {
  await openWindow();
  desk.answers = { 'quotes.list': () => ok(quotes) };
});

it.each([
  ['wapiti', ['Q26-0012']],
  ['WAPITÍ', ['Q26-0012']],
  ['jose', ['Q26-0011']],
  ['venado', ['Q26-0011', 'Q26-0014']],
  ['q26-0015', ['Q26-0015']],
  ['moose', []],
])('finds “%s”', async (typed, found) => {
  const list = mountPart(QuoteList);
  await flushPromises();
  expect(list.findAll('.ticket')).toHaveLength(5);
  await list.get('input[type="search"]').setValue(typed);
  expect(list.findAll('.ticket').map((one) => one.text())).toEqual(found);
});
