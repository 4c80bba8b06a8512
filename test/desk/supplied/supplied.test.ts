/** The products and the ways to cut that come with the program fit its species and its fats. */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import fats from '../../../resources/fats.json' with { type: 'json' };
import templates from '../../../resources/instructions.json' with { type: 'json' };
import products from '../../../resources/products.json' with { type: 'json' };
import { wholeCutsShare } from '../../../src/core/species/cutting.ts';
import { USUAL_INSTRUCTIONS } from '../../../src/desk/animal/instructions.ts';
import { instructions, packageGrams, pattyGrams, targetFat } from '../../../src/desk/input/input.ts';
import { SPECIES } from '../../../src/desk/supplied/resources.ts';

const fatCodes = [null, 'none', 'own', ...fats.map(({ code }) => code)];
const KINDS = ['whole cuts', 'grind', 'sausage', 'jerky', 'other'];

describe('supplied products', () => {
  it.each(products)('$name is complete and has a source', (product) => {
    expect(product.source.length).toBeGreaterThan(10);
    expect(product.name.trim()).toBe(product.name);
    expect(fatCodes).toContain(product.fat);
    expect(product.targetFat === null || (product.fat !== null && product.fat !== 'none')).toBe(true);
    expect(v.is(targetFat, product.targetFat)).toBe(true);
    expect(v.is(v.nullable(packageGrams), product.packageGrams)).toBe(true);
    expect(v.is(pattyGrams, product.pattyGrams)).toBe(true);
  });

  it('are grouped by kind, each once', () => {
    const kinds = products.map(({ kind }) => KINDS.indexOf(kind));
    expect(kinds).toEqual([...kinds].sort((a, b) => a - b));
    expect(kinds).not.toContain(-1);
    for (const key of ['code', 'name'] as const)
      expect(new Set(products.map((one) => one[key].toLowerCase())).size).toBe(products.length);
  });
});

describe('supplied cutting templates', () => {
  it.each(templates)(
    '$name ($carcass) has an order for every primal of every animal with that carcass',
    (template) => {
      expect(template.source.length).toBeGreaterThan(10);
      const whole = { ...USUAL_INSTRUCTIONS, ...template.instructions };
      expect(v.safeParse(instructions, whole).issues).toBeUndefined();
      expect(fatCodes.slice(1)).toContain(whole.fat);
      const species = SPECIES.filter(({ body }) => body === template.carcass);
      expect(species.length).toBeGreaterThan(0);
      const ordered = template.instructions.primals;
      for (const { code, primals } of species) {
        expect(ordered.map(({ primal }) => primal).sort(), code).toEqual(
          primals.map((one) => one.code).sort(),
        );
        expect(template.instructions.cutsShare, code).toBeCloseTo(wholeCutsShare(primals, ordered), 9);
      }
    },
  );

  it('exist for every carcass, with unique names', () => {
    expect(new Set(templates.map(({ carcass }) => carcass))).toEqual(
      new Set(SPECIES.map(({ body }) => body)),
    );
    const keys = templates.map(({ carcass, name }) => `${carcass} ${name.toLowerCase()}`);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('use supplied grind products', () => {
    const grinds = products
      .filter(({ kind }) => kind === 'grind' || kind === 'sausage')
      .map(({ name }) => name);
    for (const { instructions: one } of templates) expect(grinds).toContain(one.grindProduct);
  });
});
