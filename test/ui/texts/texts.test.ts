import { describe, expect, it } from 'vitest';
import { echoOf } from '../../../src/ui/parts/weight-echo.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { percentText, readPercent } from '../../../src/ui/texts/percent.ts';
import { typedWithUnit } from '../../../src/ui/texts/typed.ts';

const pounds = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const kilos = makeFormat({ unit: 'kg', step: 0.05, locale: 'de-DE', currency: 'EUR' });

describe('makeFormat', () => {
  it('writes masses in the unit and step of the shop', () => {
    expect(pounds.mass(8445.89)).toBe('18.62 lb');
    expect(kilos.mass(8445.89)).toBe('8,45 kg');
    expect(pounds.mass(8445.89, 0)).toBe('19 lb');
  });

  it('formats a range with its unit once, and as one number if both ends are displayed alike', () => {
    expect(pounds.massRange(17327.2, 19958.1, 1)).toBe('38.2–44.0 lb');
    expect(pounds.massRange(17327.2, 17328, 1)).toBe('38.2 lb');
    expect(pounds.shareRange(0.25, 0.38)).toBe('25–38%');
    expect(pounds.shareRange(0.25, 0.25)).toBe('25%');
    expect(pounds.moneyRange(9500, 12_000)).toBe('$95.00–$120.00');
  });

  it('writes a percentage as the locale does, and never breaks it over two lines', () => {
    expect(pounds.share(0.294)).toBe('29.4%');
    expect(kilos.share(0.294)).toBe('29,4\u00a0%');
    expect(kilos.shareRange(0.25, 0.38)).toBe('25–38\u00a0%');
  });

  it('detects weights below the scale’s display', () => {
    expect(pounds.weighs(0)).toBe(false);
    expect(pounds.weighs(0.01 * 453.59237 - 0.01)).toBe(false);
    expect(pounds.weighs(0.01 * 453.59237 + 0.01)).toBe(true);
  });

  it('formats minor units as money, also for currencies without decimals', () => {
    expect(pounds.money(12345)).toBe('$123.45');
    expect(makeFormat({ unit: 'kg', step: 0.05, locale: 'en-US', currency: 'JPY' }).money(1200)).toBe(
      '¥1,200',
    );
  });

  it('formats a date without shifting it by a time zone', () => {
    expect(pounds.day('2026-11-24')).toBe('Tue, Nov 24');
    expect(pounds.moment('2026-11-24T21:15:00Z', 'America/Denver')).toMatch(/Nov 24, 2:15\sPM/);
  });
});

describe('echoOf', () => {
  it.each([
    ['84.6', '= 84 lb 9.6 oz = 38.37 kg'],
    ['84 lb 10 oz', '= 84.63 lb = 38.39 kg'],
    ['8.4kg', '= 18.52 lb'],
    ['', ''],
    ['1,234', ''],
    ['abc', ''],
  ])('reads %s', (typed, echo) => expect(echoOf(typed, 'lb', 'en-US')).toBe(echo));

  it('carries full ounces over to the pound', () =>
    expect(echoOf('1.999', 'lb', 'en-US')).toContain('= 2 lb 0 oz'));
});

describe('percentages', () => {
  it.each([
    ['12,5 %', 0.125],
    ['40', 0.4],
    ['0', 0],
    ['100', 1],
    ['101', null],
    ['', null],
    ['-5', null],
    ['half', null],
  ])('reads %s', (typed, share) => expect(readPercent(typed)).toBe(share));

  it('round-trips', () => {
    for (const typed of ['12.5', '40', '33.33', '0', '7.05'])
      expect(percentText(readPercent(typed) ?? NaN)).toBe(typed);
  });
});

describe('small texts', () => {
  it('add the unit to a bare number only', () => {
    expect(typedWithUnit('18.6', 'lb')).toBe('18.6 lb');
    expect(typedWithUnit('18 lb 6 oz', 'oz')).toBe('18 lb 6 oz');
  });
});
