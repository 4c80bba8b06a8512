import { describe, expect, it } from 'vitest';
import { box, diamond, disc, ribbon } from '../../../src/ui/charts/drawing/scene.ts';

describe('shapes as path data', () => {
  it('a box is a closed path', () => {
    expect(box(10, 20, 30, 40)).toBe('M10 20h30v40h-30v-40z');
  });

  it('corner radii never exceed the box, and no box has a negative width', () => {
    expect(box(0, 0, 4, 20, 6)).toBe(
      'M2 0h0a2 2 0 0 1 2 2v16a2 2 0 0 1 -2 2h0a2 2 0 0 1 -2 -2v-16a2 2 0 0 1 2 -2z',
    );
    expect(box(0, 0, -4, 20, 6)).toBe('M0 0h0v20h0v-20z');
  });

  it('a disc and a diamond are centred', () => {
    expect(disc(10, 10, 4)).toBe('M6 10a4 4 0 1 0 8 0a4 4 0 1 0 -8 0z');
    expect(diamond(10, 10, 4)).toBe('M10 6l4 4l-4 4l-4 -4z');
  });

  it('a ribbon has the given height at each end', () => {
    expect(ribbon(0, 0, 10, 100, 50, 20)).toBe('M0 0C50 0 50 50 100 50v20C50 70 50 10 0 10z');
  });
});
