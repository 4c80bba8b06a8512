import { beforeEach, describe, expect, it, vi } from 'vitest';
import { CAUTIONS } from '../../src/desk/resources.ts';
import { cautionsAt } from '../../src/ui/cautions/at-place.ts';
import type { Caution } from '../../src/bridge/contract.ts';

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

  it('never hold the steps after a positive result', () => {
    const everything = [{ cautions: all.map(({ code }) => code) }];
    expect(codesAt('table', everything).join()).not.toContain('positive');
  });
});

describe('seen today', () => {
  beforeEach(() => {
    const kept = new Map<string, string>();
    vi.stubGlobal('localStorage', {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => kept.set(key, value),
    });
    vi.resetModules();
  });
  const fresh = () => import('../../src/ui/cautions/seen.ts');

  it('holds at this place, until tomorrow, for what was seen and not for what comes new', async () => {
    const { isSeen, markSeen } = await fresh();
    markSeen('2026-11-26', 'table', ['cwd']);
    markSeen('2026-11-26', 'table', ['lead']);
    expect(isSeen('2026-11-26', 'table', 'cwd')).toBe(true);
    expect(isSeen('2026-11-26', 'table', 'lead')).toBe(true);
    expect(isSeen('2026-11-26', 'table', 'machines')).toBe(false);
    expect(isSeen('2026-11-26', 'grinder', 'lead')).toBe(false);
    expect(isSeen('2026-11-27', 'table', 'cwd')).toBe(false);
  });

  it('is kept by this computer, can be taken back, and is forgotten with the day', async () => {
    const { markSeen } = await fresh();
    markSeen('2026-11-26', 'table', ['cwd']);
    vi.resetModules();
    const again = await fresh();
    expect(again.isSeen('2026-11-26', 'table', 'cwd')).toBe(true);
    again.markSeen('2026-11-26', 'table', []);
    expect(again.isSeen('2026-11-26', 'table', 'cwd')).toBe(false);
    again.markSeen('2026-11-27', 'rail', ['chill']);
    expect(again.isSeen('2026-11-26', 'table', 'cwd')).toBe(false);
  });

  it.each(['nonsense', 'null', '{"day":"2026-11-26"}', '{"day":"2026-11-26","places":null}', '[]'])(
    'is nothing where the store holds %s',
    async (stored) => {
      localStorage.setItem('gambrel.cautions-seen', stored);
      expect((await fresh()).isSeen('2026-11-26', 'table', 'cwd')).toBe(false);
    },
  );
});
