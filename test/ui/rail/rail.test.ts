import { describe, expect, it } from 'vitest';
import type { CutReason, Hook } from '../../../src/bridge/contract.ts';
import { cutWhy, inCutOrder } from '../../../src/ui/rail/cut-why.ts';
import { ticketsIn, typedTickets } from '../../../src/ui/rail/tickets-typed.ts';
import { degreesText } from '../../../src/ui/cooler/degrees.ts';
import { spanText } from '../../../src/ui/cooler/span.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const shop = { limitDays: 7, today: '2026-11-25', format };

describe('why an animal is next', () => {
  it.each<[CutReason, number, string | null, string]>([
    ['over-limit', 8, null, 'hung 8 days, past the limit of 7'],
    ['promised', 2, '2026-11-27', 'promised for Fri, Nov 27'],
    ['promised', 2, '2026-11-25', 'promised for today'],
    ['promised', 2, '2026-11-23', 'was promised for Mon, Nov 23'],
    ['due', 7, null, 'hung 7 days, today is the last day'],
    ['due', 6, null, 'hung 6 days, tomorrow is the last day'],
    ['ready', 4, null, 'hung 4 days, ready to cut'],
    ['light', 5, null, 'hung 5 days; a light animal dries out faster'],
    ['oldest', 1, null, 'hung 1 day, longest of the rest'],
    ['oldest', 0, null, 'came in today'],
  ])('%s, %i days', (why, days, promisedOn, text) =>
    expect(cutWhy({ why }, { days, promisedOn }, shop)).toBe(text),
  );
});

describe('hooks in cutting order', () => {
  it('follow the order, and end with animals that may not be cut, in their original order', () => {
    const hooks = Object.freeze([5, 3, 8, 1].map((id) => Object.freeze({ id }))) as unknown as Hook[];
    const next = [1, 5].map((id) => ({ id, ticket: '', why: 'ready' as const }));
    expect(inCutOrder(hooks, next).map(({ id }) => id)).toEqual([1, 5, 3, 8]);
  });
});

describe('parsing typed tickets', () => {
  const hooks = [
    { id: 1, ticket: '25-0155' },
    { id: 2, ticket: '26-0155' },
    { id: 3, ticket: '26-0009' },
  ];
  it('finds them by number, newer season first, or complete; each once', () => {
    expect(ticketsIn('155, 9 26-0009;25-0155', hooks)).toEqual({ ids: [2, 3, 1], unknown: [] });
    expect(ticketsIn(' 0009 ', hooks)).toEqual({ ids: [3], unknown: [] });
    expect(ticketsIn('', hooks)).toEqual({ ids: [], unknown: [] });
  });
  it('reports text that matches none', () => {
    expect(ticketsIn('155 1555 elk', hooks)).toEqual({ ids: [2], unknown: ['1555', 'elk'] });
  });
  it('round-trips', () => {
    const newer = hooks.slice(1);
    expect(ticketsIn(typedTickets(newer), hooks).ids).toEqual([2, 3]);
  });
});

describe('temperatures and durations', () => {
  it('are in the shop’s scale', () => {
    expect(degreesText(4.4, format)).toBe('40°F');
    const metric = makeFormat({ unit: 'kg', step: 0.02, locale: 'en-CA', currency: 'CAD' });
    expect(degreesText(4.4, metric)).toBe('4.4°C');
  });
  it.each([
    [40.2, '40 minutes'],
    [1, '1 minute'],
    [60, '1 hour'],
    [130, '2 hours 10 min'],
    [47 * 60 + 59, '47 hours 59 min'],
    [48 * 60, '2 days'],
    [366 * 60 + 42, '15 days 7 hours'],
  ])('%d minutes', (minutes, text) => expect(spanText(minutes)).toBe(text));
});
