/** A signature that is drawn is one that the desk takes, however long somebody draws. */
import fc from 'fast-check';
import * as v from 'valibot';
import { expect, it } from 'vitest';
import { newDraft } from '../../../../../src/desk/animals/check-in/draft-input.ts';
import { begun, drawn, pointIn } from '../../../../../src/ui/station/places/hunter/strokes.ts';

const pad = { left: 100, top: 50, width: 500, height: 150 };

it('is in a box of 1000 × 300, whatever the pad measures', () => {
  expect(pointIn(pad, 350, 125)).toEqual({ x: 500, y: 150 });
  expect(pointIn(pad, 0, 900)).toEqual({ x: 0, y: 300 });
});

it('leaves out points that nobody would see', () => {
  const path = begun('', { x: 10, y: 10 });
  expect(drawn(path, { x: 13, y: 13 })).toBe(path);
  expect(drawn(path, { x: 20, y: 10 })).toBe('M10,10L10,10L20,10');
  expect(drawn('', { x: 20, y: 10 })).toBe('');
});

const { signature } = newDraft.entries;

it('ends before it is longer than the desk takes', () => {
  let long = begun('', { x: 0, y: 0 });
  for (let i = 0; i < 10_000; i += 1) long = drawn(long, { x: (i % 2) * 1000, y: 300 });
  expect(v.is(signature, long)).toBe(true);
  expect(long.length).toBeGreaterThan(11_900);
});

it('is taken by the desk', () => {
  const point = fc.record({
    x: fc.double({ noNaN: true }),
    y: fc.double({ noNaN: true }),
    down: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(point, { maxLength: 4_000, size: 'max' }), (points) => {
      let path = '';
      for (const { x, y, down } of points) {
        const at = pointIn(pad, x, y);
        path = down || path === '' ? begun(path, at) : drawn(path, at);
      }
      expect(v.is(signature, path), path.slice(-40)).toBe(true);
    }),
    { numRuns: 50 },
  );
});
