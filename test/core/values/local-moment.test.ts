/** Local time and moments; the changes of clocks are those of the IANA time zone database (files northamerica, australasia and asia). */
import { describe, expect, it } from 'vitest';
import { aheadOf, momentsOf } from '../../../src/core/values/local-moment.ts';

const HOUR = 3_600_000;
const hours = (moment: string, zone: string): number => aheadOf(Date.parse(moment), zone) / HOUR;
const moments = (day: string, seconds: number, zone: string): string[] =>
  momentsOf(day, seconds, zone).map((moment) => new Date(moment).toISOString());

describe('the offset of a zone', () => {
  it('changes at the second at which the clocks do', () => {
    expect(hours('2026-11-01T07:59:59.999Z', 'America/Denver')).toBe(-6);
    expect(hours('2026-11-01T08:00:00Z', 'America/Denver')).toBe(-7);
    expect(hours('2026-03-08T08:59:59Z', 'America/Denver')).toBe(-7);
    expect(hours('2026-03-08T09:00:00Z', 'America/Denver')).toBe(-6);
  });

  it('changes within an hour of UTC on Lord Howe Island, by half an hour', () => {
    expect(hours('2026-10-03T15:29:59Z', 'Australia/Lord_Howe')).toBe(10.5);
    expect(hours('2026-10-03T15:30:00Z', 'Australia/Lord_Howe')).toBe(11);
  });

  it('has quarters of an hour in Kathmandu', () => {
    expect(hours('2026-11-14T12:10:00Z', 'Asia/Kathmandu')).toBe(5.75);
  });
});

describe('the moments of a local time', () => {
  it('are two in the hour that comes twice, and one outside of it', () => {
    const night = '2026-11-01';
    expect(moments(night, 5400, 'America/Denver')).toEqual(['2026-11-01T07:30:00.000Z', '2026-11-01T08:30:00.000Z']);
    expect(moments(night, 3599, 'America/Denver')).toEqual(['2026-11-01T06:59:59.000Z']);
    expect(moments(night, 7200, 'America/Denver')).toEqual(['2026-11-01T09:00:00.000Z']);
  });

  it('are one where the clock skips the time', () => {
    expect(moments('2026-03-08', 9000, 'America/Denver')).toEqual(['2026-03-08T09:30:00.000Z']);
  });
}); // prettier-ignore
