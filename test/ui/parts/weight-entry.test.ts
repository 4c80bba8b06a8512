// @vitest-environment happy-dom
import { beforeEach, describe, expect, it, vi } from 'vitest';
import WeightEntry from '../../../src/ui/parts/WeightEntry.vue';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

function entry(props: object = {}) {
  const wrapper = mountPart(WeightEntry, {
    props: { label: 'Trim', saveLabel: 'Keep', modelValue: '', ...props },
  });
  const input = wrapper.get('input');
  return {
    wrapper,
    input,
    echo: () => wrapper.get('.echo').text(),
    unit: () => wrapper.find('.unit').exists(),
  };
}

describe('the weight entry', () => {
  it('echoes the parsed weight while typing, and nothing for an incomplete number', async () => {
    const { wrapper, input, echo } = entry();
    await input.setValue('84.6');
    expect(wrapper.emitted('update:modelValue')).toEqual([['84.6']]);
    await wrapper.setProps({ modelValue: '84.6' });
    expect(echo()).toBe('= 84 lb 9.6 oz = 38.37 kg');
    await wrapper.setProps({ modelValue: '61.2+58.4' });
    expect(echo()).toBe('= 119.60 lb = 54.25 kg');
    await wrapper.setProps({ modelValue: '61.2+' });
    expect(echo()).toBe('');
    await wrapper.setProps({ modelValue: '1,234' });
    expect(echo()).toBe('');
  });

  it('shows the hint without text', () =>
    expect(entry({ hint: 'Of both sides' }).echo()).toBe('Of both sides'));

  it("shows the shop's unit until another is typed", async () => {
    const { wrapper, unit } = entry({ modelValue: '18.6' });
    expect(unit()).toBe(true);
    await wrapper.setProps({ modelValue: '18.6 kg' });
    expect(unit()).toBe(false);
  });

  it('saves on Enter and on its button, and emits every other key', async () => {
    const { wrapper, input } = entry({ modelValue: '18.6' });
    await input.trigger('keydown', { key: 'Enter' });
    await wrapper.get('button').trigger('click');
    expect(wrapper.emitted('save')).toHaveLength(2);
    expect(wrapper.emitted('key')).toBeUndefined();
    await input.trigger('keydown', { key: 'Enter', ctrlKey: true });
    await input.trigger('keydown', { key: 'T' });
    expect(wrapper.emitted('save')).toHaveLength(2);
    expect(wrapper.emitted('key')).toHaveLength(2);
  });

  it('ignores a second press of its button while busy', async () => {
    const { wrapper } = entry({ busy: true });
    await wrapper.get('button').trigger('click');
    expect(wrapper.emitted('save')).toBeUndefined();
  });

  it('leaves Enter to the form if it has no button of its own', async () => {
    const { wrapper, input } = entry({ saveLabel: undefined });
    await input.trigger('keydown', { key: 'Enter' });
    expect(wrapper.emitted('save')).toBeUndefined();
  });

  it('shows the problem instead of the echo, and keeps the typed text', () => {
    const { input, echo, wrapper } = entry({ modelValue: '18.6', problem: 'That is more than the animal.' });
    expect(echo()).toBe('That is more than the animal.');
    expect(wrapper.get('[role=alert]').attributes('id')).toBe(input.attributes('aria-describedby'));
    expect(input.attributes('aria-invalid')).toBe('true');
    expect((input.element as HTMLInputElement).value).toBe('18.6');
  });

  it('continues at the end of a restored draft, and later selects it', () => {
    const { wrapper, input } = entry({ modelValue: '18.6' });
    const { element } = input as { element: HTMLInputElement };
    wrapper.vm.focus();
    expect([document.activeElement, element.selectionStart, element.selectionEnd]).toEqual([element, 4, 4]);
    wrapper.vm.focus();
    expect([element.selectionStart, element.selectionEnd]).toEqual([0, 4]);
  });
});
