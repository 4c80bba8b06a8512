// @vitest-environment happy-dom
/** The keyboard and the pointer on a chart: where marks lie, and which one is meant. */
import { mount } from '@vue/test-utils';
import { describe, expect, it } from 'vitest';
import { createMemoryHistory, createRouter } from 'vue-router';
import { markAt, placeMarks, type PlacedMark, stepBy } from '../../../src/ui/charts/engine/marks.ts';
import PlotMarks from '../../../src/ui/charts/PlotMarks.vue';

const mark = (label: string, left: number, more: Partial<PlacedMark> = {}): PlacedMark => ({
  ...{ label, link: `/${label}`, left, top: 0, width: 20, height: 20 },
  ...more,
});

describe('the place of a mark', () => {
  // Ten pixels for each unit of both axes, the upright one from below.
  const chart = {
    width: 300,
    height: 200,
    scales: {
      x: { getPixelForValue: (value: number) => 10 * value },
      y: { getPixelForValue: (value: number) => 200 - 10 * value },
    },
  } as never;

  it('spans its ranges, and the whole picture without one', () => {
    expect(placeMarks(chart, [{ label: 'a', link: '', x: [2, 8], y: [1, 5] }])).toMatchObject([
      { left: 20, width: 60, top: 150, height: 40 },
    ]);
    expect(placeMarks(chart, [{ label: 'row', link: '', y: [1, 5] }])).toMatchObject([
      { left: 0, width: 300 },
    ]);
  });

  it('is large enough to be hit, around its middle', () => {
    expect(placeMarks(chart, [{ label: 'dot', link: '', x: [5, 5], y: [5, 5] }])).toMatchObject([
      { left: 42, width: 16, top: 142, height: 16 },
    ]);
  });
});

it('a point before the box around it is meant, and of two points the nearer one', () => {
  const marks = [mark('box', 0, { width: 200, height: 40 }), mark('left', 50), mark('right', 60)];
  expect(markAt(marks, 150, 10)).toBe(0);
  expect(markAt(marks, 62, 10)).toBe(1);
  expect(markAt(marks, 68, 10)).toBe(2);
  expect(markAt(marks, 300, 10)).toBe(-1);
});

it('the arrow keys stop at both ends', () => {
  expect(['ArrowRight', 'ArrowLeft', 'Home', 'End', 'x'].map((key) => stepBy(key, 2, 4))).toEqual([
    3,
    1,
    0,
    3,
    null,
  ]);
  expect(stepBy('ArrowDown', 3, 4)).toBe(3);
  expect(stepBy('ArrowUp', 0, 4)).toBe(0);
});

describe('the marks of a chart', () => {
  async function shown(marks: PlacedMark[]) {
    const router = createRouter({
      history: createMemoryHistory(),
      routes: [{ path: '/:all(.*)', component: { template: '<i />' } }],
    });
    await router.push('/');
    const layer = mount(PlotMarks, {
      props: { marks },
      global: { plugins: [router] },
      attachTo: document.body,
    });
    const inTabOrder = () => layer.findAll('[tabindex="0"]').map((one) => one.attributes('aria-label'));
    return { layer, router, inTabOrder };
  }

  it('are links, one of them in the order of the Tab key; the arrow keys go to the others, quiet ones too', async () => {
    const { layer, inTabOrder } = await shown([
      mark('a', 0),
      mark('dot', 30, { quiet: true }),
      mark('c', 60),
    ]);
    expect(layer.findAll('a').map((one) => one.attributes('aria-label'))).toEqual(['a', 'c']);
    expect(inTabOrder()).toEqual(['a']);
    layer.get<HTMLElement>('[tabindex="0"]').element.focus();
    await layer.trigger('keydown', { key: 'ArrowRight' });
    expect(inTabOrder()).toEqual(['dot']);
    expect(document.activeElement?.getAttribute('aria-label')).toBe('dot');
    expect(layer.get('.tip').text()).toBe('dot');
    await layer.trigger('keydown', { key: 'End' });
    expect(inTabOrder()).toEqual(['c']);
    layer.unmount();
  });

  it('open with Enter, which a browser turns into a click without a place', async () => {
    const { layer, router } = await shown([mark('a', 0), mark('c', 60)]);
    await layer.get('a[aria-label="c"]').trigger('click', { detail: 0 });
    await router.isReady();
    await expect.poll(() => router.currentRoute.value.path).toBe('/c');
    layer.unmount();
  });
});
