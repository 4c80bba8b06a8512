/** The keys of the number pad: what each kind offers, and what a press makes of the text. */
import { describe, expect, it } from 'vitest';
import { loadsIn } from '../../../../src/ui/parts/weight-echo.ts';
import { padRows, pressed, type PadKind } from '../../../../src/ui/station/pad/pad-keys.ts';

const press = (...keys: string[]): string => keys.reduce(pressed, '');

describe('rows of keys', () => {
  it.each(['mass', 'count', 'degrees', 'share', 'ticket'] as const)('are full, for a %s', (kind: PadKind) => {
    const rows = padRows(kind, 'lb', '.');
    expect(new Set(rows.map(({ length }) => length)).size).toBe(1);
    expect(new Set(rows.flat()).size).toBe(rows.flat().length);
    expect(rows.flat()).toEqual(expect.arrayContaining([...'0123456789', 'back']));
  });

  it('offer the units of the shop’s own system', () => {
    expect(padRows('mass', 'lb', '.').flat()).toEqual(expect.arrayContaining(['lb', 'oz']));
    expect(padRows('mass', 'kg', ',').flat()).toEqual(expect.arrayContaining(['kg', 'g', ',']));
    expect(padRows('mass', 'kg', ',').flat()).not.toContain('lb');
  });

  it('have no point where only whole numbers are typed', () => {
    expect(padRows('count', 'lb', '.').flat()).not.toContain('.');
  });
});

describe('a press', () => {
  it('types what the desk reads as one weight', () => {
    expect(press('1', '8', 'lb', '6', 'oz')).toBe('18 lb 6 oz');
    expect(press('8', '.', '3', 'kg')).toBe('8.3 kg');
    expect(loadsIn(press('6', '1', '.', '2', '+', '5', '8', '.', '4'), 'lb')).toMatchObject({
      digits: 1196,
      decimals: 1,
    });
    expect(loadsIn(press('1', '8', 'lb', '6', 'oz'), 'lb')).toMatchObject({ digits: 294, unit: 'oz' });
  });

  it('takes off a unit whole, and then a digit', () => {
    expect(press('1', '8', 'lb', 'back')).toBe('18');
    expect(press('1', '8', 'lb', 'back', 'back')).toBe('1');
    expect(press('1', '8', 'lb', '6', 'back')).toBe('18 lb ');
    expect(press('back')).toBe('');
  });

  it('begins with no unit and no plus', () => {
    expect(press('lb')).toBe('');
    expect(press('+')).toBe('');
  });

  it('clears all of it', () => {
    expect(press('1', '8', 'lb', 'clear')).toBe('');
  });
});
