// @vitest-environment happy-dom
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BOX, readDrawing, type Point, type Region } from '../../../src/ui/carcass/drawing.ts';
import { spokenPrimal } from '../../../src/ui/carcass/map-words.ts';
import { LETTERS, LINE, regionWords, wordsWidth } from '../../../src/ui/carcass/region-words.ts';

interface Profile {
  code: string;
  body: string;
  primals: { code: string; name: string; pair: boolean }[];
}
const species = JSON.parse(readFileSync('resources/species.json', 'utf8')) as Profile[];
const drawingOf = (body: string) => readDrawing(readFileSync(`src/ui/carcass/drawings/${body}.svg`, 'utf8'));
const bodies = [...new Set(species.map(({ body }) => body))];

/** Flattens the curves of a path (M, then C only, as the drawings are written) into a polygon. */
function polygon(path: string): Point[] {
  const parts = path.match(/[MCZ][^MCZ]*/g) ?? [];
  const points: Point[] = [];
  for (const part of parts) {
    const n = (part.slice(1).match(/-?[\d.]+/g) ?? []).map(Number) as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    if (part.startsWith('M')) points.push([n[0], n[1]]);
    if (!part.startsWith('C')) continue;
    const from = points.at(-1)!;
    for (let step = 1; step <= 8; step++) {
      const t = step / 8;
      const at = (axis: 0 | 1): number =>
        (1 - t) ** 3 * from[axis] +
        3 * (1 - t) ** 2 * t * n[axis]! +
        3 * (1 - t) * t ** 2 * n[axis + 2]! +
        t ** 3 * n[axis + 4]!;
      points.push([at(0), at(1)]);
    }
  }
  return points;
}

function inside([x, y]: Point, corners: readonly Point[]): boolean {
  let odd = false;
  corners.forEach(([ax, ay], i) => {
    const [bx, by] = corners[(i + 1) % corners.length]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) odd = !odd;
  });
  return odd;
}

describe('the drawings', () => {
  it.each(species.map((one) => [one.code, one] as const))(
    'have a region for every primal of %s',
    (_, one) => {
      const codes = drawingOf(one.body).regions.map(({ code }) => code);
      expect(codes.toSorted()).toEqual(one.primals.map(({ code }) => code).toSorted());
    },
  );

  it.each(bodies)('keep every part of %s inside the box', (body) => {
    const { regions, rest, horns } = drawingOf(body);
    for (const path of [...regions.map((region) => region.path), ...rest, ...horns]) {
      expect(path).toMatch(/^M[^MZ]+Z$/);
      for (const [x, y] of polygon(path)) {
        expect(x).toBeGreaterThanOrEqual(1);
        expect(x).toBeLessThanOrEqual(BOX.width - 1);
        expect(y).toBeGreaterThanOrEqual(1);
        expect(y).toBeLessThanOrEqual(BOX.height - 1);
      }
    }
  });

  it.each(bodies)('of %s have no overlapping regions and no gaps', (body) => {
    const regions = drawingOf(body).regions.map(({ path }) => polygon(path));
    let twice = 0;
    let once = 0;
    for (let x = 0.5; x < BOX.width; x += 2) {
      for (let y = 0.5; y < BOX.height; y += 2) {
        const owners = regions.filter((region) => inside([x, y], region)).length;
        if (owners === 1) once += 1;
        if (owners > 1) twice += 1;
      }
    }
    expect(once).toBeGreaterThan(4000);
    expect(twice).toBeLessThan(once * 0.002);
    // Neighbors share the points along a seam: every region has points in common with another one.
    for (const region of regions) {
      const others = new Set(
        regions
          .filter((one) => one !== region)
          .flat()
          .map(String),
      );
      expect(region.filter((point) => others.has(String(point))).length).toBeGreaterThan(4);
    }
  });

  const named = species.flatMap((one) =>
    one.primals.map((primal): [string, string, Region] => [
      `${one.code} ${primal.code}`,
      primal.name,
      drawingOf(one.body).regions.find(({ code }) => code === primal.code)!,
    ]),
  );
  /** Minimum distance of text from the seams, in units of the drawing. */
  const CLEAR = 1.5;
  const told = ['', '18.62 lb', '79.90 lb 15.4%', '84.30 lb one of two 38.2%', 'not brought', 'roasts 3 lb'];
  const worded = named.flatMap(([which, name, region]) =>
    told.map((fact): [string, string, string, Region] => [which, fact, name, region]),
  );
  it.each(worded)('keep the text of %s, “%s”, off the seams', (_, fact, name, region) => {
    const words = regionWords(name, fact, region.room, region.rows);
    expect(words.name.join(' ')).toBe(name);
    expect(words.fact[0] ?? '').toMatch(fact === '' ? /^$/ : /^(\d+\.\d\d lb|not|roasts)/);
    const lines = [...words.name, ...words.fact];
    const corners = polygon(region.path);
    lines.forEach((line, index) => {
      const base = region.at[1] - ((lines.length - 1) * LINE) / 2 + 4 + index * LINE;
      for (const x of [-1, 1].map((side) => region.at[0] + side * (wordsWidth(line) / 2 + CLEAR))) {
        for (const y of [base, base - LETTERS * 0.7]) {
          expect(inside([x, y], corners), `“${line}” at ${x}, ${y}`).toBe(true);
        }
      }
    });
  });
});

describe('regionWords', () => {
  it('breaks a long name and keeps a number with its unit', () =>
    expect(regionWords('Neck and jowl', 'roasts 3 lb', 56, 4)).toEqual({
      name: ['Neck and', 'jowl'],
      fact: ['roasts', '3 lb'],
    }));

  it('omits a share without room, rather than a part of it', () =>
    expect(regionWords('Loin and saddle', '79.90 lb 15.4%', 90, 2, 16)).toEqual({
      name: ['Loin and saddle'],
      fact: ['79.90 lb'],
    }));

  it('never exceeds the width or the number of lines', () => {
    const { name, fact } = regionWords(
      'Hindquarter without the shank',
      'whole, with the bone left in',
      70,
      3,
    );
    expect(name.length + fact.length).toBeLessThanOrEqual(3);
    for (const line of [...name, ...fact]) expect(wordsWidth(line)).toBeLessThanOrEqual(70);
    expect(name.at(-1)).toMatch(/…$/);
  });
});

describe('spokenPrimal', () => {
  const neck = { code: 'neck', name: 'Neck', pair: false };
  it('contains the name, whether there are two, and the fact', () => {
    expect(spokenPrimal(neck, undefined)).toBe('Neck');
    expect(spokenPrimal({ ...neck, pair: true }, { text: '4.10 lb', odd: true })).toBe(
      'Neck, both sides, 4.10 lb, check again',
    );
  });
});
