/* eslint-disable vue/one-component-per-file -- parts made for the test */
/** A part that speaks another language than the window. */
// @vitest-environment happy-dom
import { beforeEach, expect, it, vi } from 'vitest';
import { computed, defineComponent, h } from 'vue';
import SpokenPart from '../../../src/ui/paper/SpokenPart.vue';
import { useShop } from '../../../src/ui/stores/shop.ts';
import { text } from '../../../src/words/compiled/window/bill.ts';
import { loadLanguage } from '../../../src/words/load.ts';
import { useLive } from '../../../src/ui/use/useLive.ts';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

beforeEach(async () => {
  await loadLanguage('es-MX');
  await openWindow();
});

/** Says words and a day, when set up and when rendered. */
const Said = defineComponent({
  setup() {
    const shop = useShop();
    const say = (): string => `${text.due} ${shop.format.longDay('2026-11-04')}`;
    const setUp = say();
    const rendered = computed(say);
    return () => h('button', `${setUp} | ${rendered.value}`);
  },
});
const ENGLISH = 'Balance due Nov 4, 2026';
const SPANISH = 'Saldo pendiente 4 nov 2026';

it('says words and days of its parts in its own language, and leaves those beside it to the window', () => {
  const both = mountPart(
    defineComponent({
      render: () => h('div', [h(Said), h(SpokenPart, { language: 'es-MX' }, () => h(Said)), h(Said)]),
    }),
  );
  expect(both.findAll('button').map((one) => one.text())).toEqual([
    `${ENGLISH} | ${ENGLISH}`,
    `${SPANISH} | ${SPANISH}`,
    `${ENGLISH} | ${ENGLISH}`,
  ]);
  expect(both.find('[lang]').attributes('lang')).toBe('es-MX');
});

it('asks the desk in its own language', () => {
  desk.answers['rail.get'] = () => ok();
  const Asks = defineComponent({
    setup() {
      useLive('rail.get', () => ({}));
      return () => null;
    },
  });
  mountPart(SpokenPart, { props: { language: 'es-MX' }, slots: { default: () => h(Asks) } });
  mountPart(Asks);
  expect(desk.languages).toEqual(['es-MX', 'en-US']);
});
