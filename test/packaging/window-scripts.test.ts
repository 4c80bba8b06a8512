/** What a window loads, as built. */
import { globSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { MOST_MB, MOST_STATION_MB, scriptsMb, stationScripts, windowScripts } from './window-scripts.ts';

it('the scripts of the window stay below their limit, compressed', () => {
  const heaviest = windowScripts()
    .filter(({ mb }) => mb > 0.002)
    .map(({ name, mb }) => `${name} ${mb.toFixed(3)} MB`);
  expect(scriptsMb(), `Heaviest: ${heaviest.join(', ')}`).toBeLessThan(MOST_MB);
});

it('the package that draws charts is fetched with the first chart, by itself', () => {
  const drawing = windowScripts().filter(({ text }) => text.includes('is not a registered')); // its own error
  expect(drawing.map(({ name }) => name)).toEqual([expect.stringMatching(/^draw-/)]);
});

it('the scripts of a station stay below theirs, and the window loads none of them', () => {
  expect(stationScripts().map(({ name }) => name)).toContainEqual(expect.stringMatching(/^station-page-/));
  expect(scriptsMb(stationScripts())).toBeLessThan(MOST_STATION_MB);
  expect(windowScripts().filter(({ text }) => text.includes('station-page-'))).toEqual([]);
});

it('no module exports a ref: the build reads imports directly (electron/packaging/small-components.ts)', () => {
  const refs = /^export (?:const|let) .*= (?:\w*[rR]ef|computed|readonly)(?:<.*>)?\(/m;
  const exporting = globSync('src/{ui,words,bridge,core}/**/*.ts').filter((file) =>
    refs.test(readFileSync(file, 'utf8')),
  );
  expect(exporting).toEqual([]);
});

it('the page of sample parts, which test/e2e/samples opens in a development build, is not among them', () => {
  const scripts = windowScripts();
  expect(scripts.length).toBeGreaterThan(5);
  expect(scripts.filter(({ text }) => text.includes('data-sample')).map(({ name }) => name)).toEqual([]);
});
