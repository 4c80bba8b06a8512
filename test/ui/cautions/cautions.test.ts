import { describe, expect, it } from 'vitest';
import { CAUTIONS } from '../../../src/desk/supplied/resources.ts';
import { cautionsAt } from '../../../src/ui/cautions/at-place.ts';
import type { Caution } from '../../../src/bridge/contract.ts';

const all = CAUTIONS.map((one): Caution => ({ ...one, shown: [...one.shown] }));
const codesAt = (...args: Parameters<typeof cautionsAt> extends [unknown, ...infer R] ? R : never) =>
  cautionsAt(all, ...args).map(({ code }) => code);

describe('the cautions of a place', () => {
  it('are those of every animal and of the species at work', () => {
    expect(codesAt('grinder', [])).toEqual(['grinder-cold', 'machines', 'cleaning', 'apart']);
    expect(codesAt('table', [{ cautions: ['lead', 'brucellosis', 'trichinella-cooking'] }])).toEqual([
      'brucellosis',
      'lead',
      'machines',
      'cleaning',
    ]);
  });

  it('leave out how to cook at the label of what was proven ready to eat, and nothing else', () => {
    const bear = [{ cautions: ['trichinella-cooking'] }];
    expect(codesAt('label', bear)).toEqual(['ground-heat', 'trichinella-cooking', 'apart']);
    expect(codesAt('label', bear, true)).toEqual(['apart']);
  });

  it('never include the steps after a positive result', () => {
    const everything = [{ cautions: all.map(({ code }) => code) }];
    expect(codesAt('table', everything).join()).not.toContain('positive');
  });
});
