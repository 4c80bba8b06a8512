// @vitest-environment happy-dom
import { beforeEach, expect, it, vi } from 'vitest';
import { nextTick } from 'vue';
import Combobox, { type PickOption } from '../../../src/ui/parts/Combobox.vue';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const ANNA = { id: 1, label: 'Anna Berg' };
const MATS = { id: 2, label: 'Mats Lindgren' };
const OLE = { id: 3, label: 'Ole Moe' };

/** A field in which somebody typed, and then pressed the arrow down once. */
async function arrowed(options: PickOption[]) {
  const wrapper = mountPart(Combobox, {
    props: { label: 'Hunter', modelValue: '', options },
    attachTo: document.body,
  });
  const field = wrapper.get('input');
  field.element.focus();
  await field.setValue('0119');
  await nextTick();
  await field.trigger('keydown', { key: 'ArrowDown' });
  await nextTick();
  return { wrapper, field };
}

it('leaves the option that an arrow key reached when other options come', async () => {
  const { wrapper, field } = await arrowed([MATS, OLE]);
  const active = (): string => wrapper.get('[data-highlighted]').text();
  const reached = [MATS, OLE].find(({ label }) => label === active());
  if (!reached) throw new Error(`“${active()}” is no option`);
  await wrapper.setProps({ options: [ANNA, { ...reached }] });
  expect(active()).toBe(reached.label);
  await field.trigger('keydown', { key: 'Enter' });
  await nextTick();
  expect(wrapper.emitted('pick')).toEqual([[reached]]);
});

it('leaves none when the option is gone', async () => {
  const { wrapper } = await arrowed([MATS, OLE]);
  await wrapper.setProps({ options: [ANNA] });
  expect(wrapper.findAll('[data-highlighted]')).toHaveLength(0);
});
