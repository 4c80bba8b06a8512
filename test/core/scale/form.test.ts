import { describe, expect, it } from 'vitest';
import { learnForm, parseScaleLine, type ScaleForm } from '../../../src/core/scale/line.ts';
import type { MassUnit } from '../../../src/core/values/units.ts';

/** Learns from the digits standing between « and ». */
function learn(shown: string, unit?: MassUnit, decimals?: number): ScaleForm {
  const from = shown.indexOf('«');
  return learnForm(shown.replace(/[«»]/g, ''), { from, to: shown.indexOf('»') - 1 }, unit, decimals);
}
const typedOf = (line: string, form: ScaleForm): string => {
  const read = parseScaleLine(line, form);
  return read.overload ? read.range : `${read.typed} ${read.stable}`;
};

describe('learnForm', () => {
  it.each<[string, MassUnit | undefined, number | undefined, string, string]>([
    ['  «18.62»', 'lb', undefined, '   7.04', '7.04 lb null'],
    ['«001862»', 'lb', 2, '000704', '7.04 lb null'],
    ['00«1862»', 'lb', 2, '000704', '7.04 lb null'],
    ['«001862»', 'kg', 3, '-000704', '-0.704 kg null'],
    ['S+«001862»LBv', undefined, 1, 'U+000704LBz', '70.4 lb false'],
    ['12:45 ID 7 «18.62» lb', undefined, undefined, '08:01 ID 7 104.20 lb', '104.20 lb null'],
    [
      'G 18.62 lb T 0.50 lb N «18.12» lb',
      undefined,
      undefined,
      'G 7.54 lb T 0.50 lb N 7.04 lb',
      '7.04 lb null',
    ],
    ['01«01862»00', 'lb', 2, '010070400', '7.04 lb null'],
    ['ST «18.62» lb', undefined, undefined, 'US 7.04 lb', '7.04 lb false'],
    ['«18.62» lb', undefined, undefined, '8.45 kg', '8.45 kg null'],
    ['«+ 18.62 » lb', undefined, undefined, '- 8.45 lb', '-8.45 lb null'],
    ['\n «18.62»lb\r\n00\r', undefined, undefined, '\n  7.04lb\r\n10\r', '7.04 lb false'],
    ['«18.62»', 'lb', undefined, 'OL', 'over'],
    ['001,«18.62»,x', 'lb', undefined, '002,7.04,x', '7.04 lb null'],
  ])('reads, learned from %j with %s and %s decimals, %j as %s', (shown, unit, decimals, line, typed) =>
    expect(typedOf(line, learn(shown, unit, decimals))).toBe(typed),
  );

  it('survives JSON unchanged', () => {
    const form = learn('0042 «001862» 7', 'lb', 2);
    expect(form).toEqual({ number: 1, of: 3, words: [], unit: 'lb', decimals: 2, part: null });
    expect(JSON.parse(JSON.stringify(form))).toEqual(form);
    expect(typedOf('0043 000704 7', JSON.parse(JSON.stringify(Object.freeze(form))) as ScaleForm)).toBe(
      '7.04 lb null',
    );
  });

  it.each([
    ['NET «18.62» lb', 'GROSS 18.62 lb', 'scale.form'],
    ['NET «18.62» lb', 'TARE 0.50 lb', 'scale.form'],
    ['NET «18.62» lb', 'NET 18.62 lb 3', 'scale.form'],
    ['01«018.62» lb', '1018.62 lb', 'scale.form'],
    ['«18.62» lb', '001862 lb', 'scale.no-point'],
    ['«18.62» lb', '18.62', 'scale.no-unit'],
    ['«18.62» lb', '1\xff.62 lb', 'scale.noise'],
  ])('learned from %j it refuses %j as %s', (shown, line, code) =>
    expect(() => parseScaleLine(line, learn(shown))).toThrow(expect.objectContaining({ code })),
  );

  it.each<[string, MassUnit | undefined, number | undefined, string]>([
    ['«ST» 18.62 lb', 'lb', undefined, 'scale.mark'],
    ['18.62 «»lb', 'lb', undefined, 'scale.mark'],
    ['12:«45 18».62 lb', 'lb', undefined, 'scale.mark'],
    ['«18.62»', undefined, undefined, 'scale.no-unit'],
    ['«001862»', 'lb', undefined, 'scale.no-point'],
    ['01«01862»00', 'lb', undefined, 'scale.no-point'],
    ['«1862»', 'lb', 5, 'scale.decimals'],
    ['«1862»', 'lb', 0.5, 'scale.decimals'],
    ['«1862»', 'lb', NaN, 'scale.decimals'],
  ])('cannot learn from %j with %s and %s decimals: %s', (shown, unit, decimals, code) =>
    expect(() => learn(shown, unit, decimals)).toThrow(
      expect.objectContaining({ name: 'ValidationError', code }),
    ),
  );
});
