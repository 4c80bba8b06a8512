import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { backupsToDrop, type DatedBackup } from '../../../src/book/file/backup-rotation.ts';

const at = (moment: string, beforeUpdate = false): DatedBackup => ({ at: moment, beforeUpdate });
const day = (n: number) => new Date(Date.UTC(2026, 0, n)).toISOString().slice(0, 10);

describe('backup rotation', () => {
  it('keeps all backups of the newest day and the last of each earlier one', () => {
    const all = [
      '2026-11-24T08:00:00Z',
      '2026-11-24T17:00:00Z',
      '2026-11-25T08:00:00Z',
      '2026-11-25T08:30:00Z',
    ];
    expect(backupsToDrop(all.map((one) => at(one))).map((one) => one.at)).toEqual(['2026-11-24T08:00:00Z']);
  });

  it('keeps one a day for 30 days that have any, then one a month forever', () => {
    const year = Array.from({ length: 365 }, (_, n) => at(`${day(n + 1)}T17:00:00Z`));
    const dropped = new Set(backupsToDrop(year));
    const kept = year.filter((one) => !dropped.has(one)).map((one) => one.at.slice(0, 10));
    expect(kept).toHaveLength(30 + 11);
    expect(kept.slice(0, 3)).toEqual(['2026-01-31', '2026-02-28', '2026-03-31']);
    expect(kept.at(-1)).toBe('2026-12-31');
  });

  it('keeps those made before an update, and the newest one although the clock was set back', () => {
    const update = at('2026-03-02T08:00:00Z', true);
    const made = at('2026-03-02T09:00:00Z');
    const others = ['2026-03-02T17:00:00Z', '2026-11-25T08:00:00Z'].map((one) => at(one));
    expect(backupsToDrop([update, made, ...others], made)).toEqual([]);
    expect(backupsToDrop([update, made, ...others])).toEqual([made]);
  });

  it('deletes nothing when the clock jumps ahead: each month and each of the last 30 days still has one', () => {
    const moments = fc.date({
      min: new Date('2020-01-01'),
      max: new Date('2060-01-01'),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(fc.array(fc.tuple(moments, fc.boolean()), { maxLength: 200 }), (drawn) => {
        const all = Object.freeze(
          drawn.map(([moment, update]) => Object.freeze(at(moment.toISOString(), update))),
        );
        const dropped = new Set(backupsToDrop(all));
        const kept = all.filter((one) => !dropped.has(one));
        const starts = (of: readonly DatedBackup[], length: number) =>
          new Set(of.map((one) => one.at.slice(0, length)));
        expect(starts(kept, 7)).toEqual(starts(all, 7));
        const days = [...starts(all, 10)].sort().slice(-30);
        for (const one of days) expect(starts(kept, 10)).toContain(one);
        expect(kept.filter((one) => one.beforeUpdate)).toEqual(all.filter((one) => one.beforeUpdate));
        const newest = days.at(-1);
        expect([...dropped].some((one) => one.at.slice(0, 10) === newest)).toBe(false);
        // Thinning what was thinned takes no more.
        expect(backupsToDrop(kept)).toEqual([]);
      }),
    );
  });
});
