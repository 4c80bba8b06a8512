import { describe, expect, it } from 'vitest';
import type { AnimalPage, PartNone, WeighingRow } from '../../../src/bridge/contract.ts';
import { isUnknown, nonePartAt, saysNone } from '../../../src/ui/table/part-none.ts';
import { partRows } from '../../../src/ui/ladder/part-rows.ts';
import { problemMessage } from '../../../src/ui/texts/problem-message.ts';
import { lossesStory } from '../../../src/ui/charts/pounds/losses-story.ts';
import { poundsStory } from '../../../src/ui/charts/pounds/pounds-story.ts';
import { format, pounds } from '../season-looks.ts';

const bone = { part: 'bone', stage: 'cut', voided: null } as WeighingRow;
const none: PartNone[] = [{ id: 1, part: 'damage', at: '2026-10-10T15:00:00Z', by: 'AB' }];

describe('stating that there is none of a part', () => {
  it.each(['0', ' 0 ', '0.0', '0,00', '0 lb', '0kg', 'none', 'None', 'NONE'])('accepts %j', (typed) =>
    expect(saysNone(typed)).toBe(true),
  );
  it.each(['', '0.5', '10', '00.1 lb', 'nonesuch', 'no', '0 lb 8 oz', '-'])('rejects %j', (typed) =>
    expect(saysNone(typed)).toBe(false),
  );

  it('applies to fat, sinew, bone and damage, not to meat, primals or packages', () => {
    const at = (stage: 'cut' | 'packed' | 'primal', part: 'damage' | 'trim' | 'fat saved', primal = '') =>
      nonePartAt({ stage, part, primal });
    expect(at('cut', 'damage')).toBe('damage');
    expect(at('cut', 'fat saved')).toBe('fat saved');
    expect(at('cut', 'trim')).toBeNull();
    expect(at('cut', 'damage', 'shoulder')).toBeNull();
    expect(at('packed', 'damage')).toBeNull();
    expect(at('primal', 'damage')).toBeNull();
  });

  it('is offered only while the part is unknown', () => {
    const page = { weighings: [bone, { ...bone, part: 'sinew', voided: {} } as WeighingRow], none };
    expect(isUnknown(page, 'bone')).toBe(false);
    expect(isUnknown(page, 'damage')).toBe(false);
    expect(isUnknown(page, 'sinew')).toBe(true);
    expect(isUnknown(page, 'fat saved')).toBe(true);
  });

  it('is rejected with a message if the part was weighed', () =>
    expect(
      problemMessage(
        { kind: 'refused', code: 'none.weighed', with: { part: 'damage', stage: 'cut' } },
        format,
      ),
    ).toBe('Damage was already weighed. Void that weight first.'));
});

describe('the parts of an animal', () => {
  it('show 0 only for a part stated as none, never for an unweighed one', () => {
    const page = {
      ladder: {
        baseGrams: 1000,
        base: 'hanging',
        pieces: [{ part: 'bone', grams: 200, share: 0.2 }],
        restGrams: 800,
      },
      takeHomeGrams: 0,
      weighings: [],
      expected: [],
      none,
    } as unknown as AnimalPage;
    const grams = Object.fromEntries(partRows(page, format).map((row) => [row.key, row.grams]));
    expect(grams).toMatchObject({ bone: 200, damage: 0, sinew: null, 'fat saved': null, trim: null });
  });
});

describe('the breakdown of the pounds', () => {
  const link = (): string => '';
  const SHRINK = [{ what: 'shrink' as const, grams: 2000, share: 0.04, minor: null }];
  it('names shrink alone only if the damage of every animal is known', () => {
    const said = (damageUnknown: number): string => {
      const { table, notes } = poundsStory(pounds({ damageUnknown }), format, link);
      return [...table.rows.map(([name]) => name), ...notes].join('\n');
    };
    expect(said(0)).toContain('Cooler shrink');
    expect(said(0)).not.toContain('Shrink and unweighed damage');
    expect(said(3)).toContain('Shrink and unweighed damage');
    expect(lossesStory(pounds({ damageUnknown: 3, losses: SHRINK }), format, link).finding).toContain(
      'Besides bone, the largest loss was shrink and unweighed damage',
    );
    expect(said(3)).toContain(
      'Damage of 3 animals was neither weighed nor entered as none, so shrink includes unweighed damage.',
    );
  });
});
