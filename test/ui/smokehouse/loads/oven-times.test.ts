/** Oven times are typed and shown by the shop's clock; the tests' computer stands in Denver. */
import { describe, expect, it } from 'vitest';
import { typedMoment, typeMoment } from '../../../../src/ui/smokehouse/loads/oven-times.ts';

const EAST = 'America/New_York';

describe('the time of the oven', () => {
  it('is shown in the zone of the shop', () => {
    expect(typeMoment('2026-11-24T15:30:00.000Z', EAST)).toBe('2026-11-24T10:30');
    expect(typeMoment('2026-07-24T03:30:00.000Z', EAST)).toBe('2026-07-23T23:30');
    expect(typeMoment(null, EAST)).toBe('');
  });

  it('is read in the zone of the shop', () => {
    expect(typedMoment('2026-11-24T10:30', null, EAST)).toBe('2026-11-24T15:30:00.000Z');
    expect(typedMoment('', '2026-11-24T15:30:00.000Z', EAST)).toBeNull();
  });

  it('stays what it was where nobody typed over it: half past one comes twice on November 1', () => {
    for (const was of ['2026-11-01T05:30:00.000Z', '2026-11-01T06:30:00.000Z', '2026-11-24T15:30:20.000Z'])
      expect(typedMoment(typeMoment(was, EAST), was, EAST)).toBe(was);
  });
});
