/** Cautions say the same figures in every language, and never less. */
import { describe, expect, it } from 'vitest';
import { allNames } from '../../../src/desk/names/names.ts';

const english = [...allNames('en-US')].filter(([key]) => key.startsWith('caution.'));

/** Numbers with their degrees, whatever the order, the space before the unit and the decimal sign. */
function figures(text: string): string[] {
  const plain = text.replaceAll(/(?<=\d)[\u00A0\u202F](?=\d{3}(?!\d))/g, ',').replaceAll('\u00A0', ' ');
  return [...plain.matchAll(/\d+(?:[.,]\d+)*(?: ?°?[CF]\b)?/g)]
    .map(([figure]) => figure.replaceAll(' ', '').replace(/(?<=\d),(?=\d(?!\d\d))/, '.'))
    .toSorted();
}

describe.each(['en-CA', 'es-MX', 'fr-CA'] as const)('in %s', (language) => {
  const said = allNames(language);

  it.each(english)('%s', (key, text) => {
    const other = said.get(key) ?? '';
    expect(figures(other)).toEqual(figures(text));
    expect(other.length).toBeGreaterThan(0.7 * text.length);
  });
});

it('tells figures apart', () => {
  expect(figures('Cook to 165°F (74°C)')).toEqual(figures('à 74\u00A0°C (165\u00A0°F)'));
  expect(figures('160 °F')).not.toEqual(figures('165 °F'));
  expect(figures('7,500 ppm, 4.4°C')).toEqual(figures('7\u00A0500 ppm, 4,4\u00A0°C'));
});
