// @vitest-environment happy-dom
import { beforeEach, describe, expect, it, vi } from 'vitest';
import Field from '../../../src/ui/parts/Field.vue';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
/** Today is Tuesday, November 24, 2026. */
beforeEach(() => openWindow());

function dayField(props: object = {}) {
  const wrapper = mountPart(Field, {
    props: { label: 'Killed on', type: 'date', modelValue: '', ...props },
    attrs: { 'onUpdate:modelValue': (value: string) => void wrapper.setProps({ modelValue: value }) },
  });
  const input = wrapper.get<HTMLInputElement>('input[type=text]');
  async function type(typed: string): Promise<void> {
    input.element.value = typed;
    await input.trigger('input');
  }
  return {
    wrapper,
    input,
    model: () => wrapper.props('modelValue'),
    readBack: () => (wrapper.find('.read-back').exists() ? wrapper.get('.read-back').text() : ''),
    says: () => (wrapper.find('.problem').exists() ? wrapper.get('.problem').text() : ''),
    type,
    async leave(typed: string) {
      await type(typed);
      await input.trigger('change');
    },
  };
}

describe('a date field', () => {
  it.each([
    ['27', { max: '2026-11-24' }, '2026-10-27', 'Tue, Oct 27, 2026'],
    ['27', { min: '2026-11-24' }, '2026-11-27', 'Fri, Nov 27, 2026'],
    ['yesterday', { max: '2026-11-24' }, '2026-11-23', 'Mon, Nov 23, 2026'],
    ['12/28', { max: '2026-11-24' }, '2025-12-28', 'Sun, Dec 28, 2025'],
    ['12/28', {}, '2026-12-28', 'Mon, Dec 28, 2026'],
  ])('parses %s with %o and shows the date in words', async (typed, bounds, date, words) => {
    const { input, type, model, readBack, leave } = dayField(bounds);
    await type(typed);
    expect([model(), readBack(), input.element.value]).toEqual([date, words, typed]);
    await leave(typed);
    expect(readBack()).toBe(words);
    const [year, month, day] = date.split('-');
    expect(input.element.value).toBe(`${month}/${day}/${year}`);
  });

  it('keeps invalid text, and reports it on blur', async () => {
    const { input, type, says, leave } = dayField();
    await type('11/');
    expect(says()).toBe('');
    await leave('soon');
    expect(input.element.value).toBe('soon');
    expect(says()).toMatch(/not a date/);
    await leave('11/20');
    expect(says()).toBe('');
  });

  it('keeps invalid text in a filter, whose value does not change', async () => {
    const { input, type, model, says, leave } = dayField({ whole: true, modelValue: '2026-11-02' });
    await leave('soon');
    expect([input.element.value, model()]).toEqual(['soon', '2026-11-02']);
    expect(says()).toMatch(/not a date/);
    await type('2');
    expect(model()).toBe('2026-11-02');
    await leave('27');
    expect(model()).toBe('2026-10-27');
  });

  it('follows outside changes of its value', async () => {
    const { wrapper, input, leave } = dayField();
    await leave('soon');
    await wrapper.setProps({ modelValue: '2026-11-05' });
    expect(input.element.value).toBe('11/05/2026');
    await wrapper.setProps({ modelValue: '' });
    expect(input.element.value).toBe('');
  });

  it('excludes its calendar from the tab order', () =>
    expect(dayField().wrapper.get('button').attributes('tabindex')).toBe('-1'));
});
