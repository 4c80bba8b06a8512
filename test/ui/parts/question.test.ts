// @vitest-environment happy-dom
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { h, nextTick } from 'vue';
import Question from '../../../src/ui/parts/question/Question.vue';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

function question(props: object = {}) {
  const field = document.body.appendChild(document.createElement('input'));
  field.focus();
  const given: string[] = [];
  const answers = ['M', 'Y', 'N'].map((key) => ({ key, label: key, does: () => void given.push(key) }));
  const scrolled = vi.spyOn(Element.prototype, 'scrollIntoView');
  const wrapper = mountPart(Question, {
    props: { answers, ...props },
    slots: { default: () => h('input', { name: 'why' }) },
  });
  return { wrapper, field, given, scrolled, press: (key: string) => wrapper.trigger('keydown', { key }) };
}

describe('a question', () => {
  it('scrolls into view, takes the focus, and is answered by its keys', async () => {
    const { wrapper, given, press, scrolled } = question();
    expect(document.activeElement).toBe(wrapper.element);
    expect(scrolled).toHaveBeenCalled();
    for (const key of ['m', 'Y', 'Enter', 'x']) await press(key);
    expect(given).toEqual(['M', 'Y']);
  });

  it.each(['n', 'Escape'])('returns the focus with %s, which saves nothing', async (key) => {
    const { field, given, press } = question();
    await press(key);
    expect(given).toEqual(['N']);
    expect(document.activeElement).toBe(field);
  });

  it('takes the focus again for another subject', async () => {
    const { wrapper, field } = question({ about: 1 });
    field.focus();
    await wrapper.setProps({ about: 2 });
    await nextTick();
    expect(document.activeElement).toBe(wrapper.element);
  });

  it('lets a weight be typed again, and leaves letters to its own field', async () => {
    const { wrapper, given, press } = question();
    await press('8');
    expect(wrapper.emitted('digit')).toHaveLength(1);
    await wrapper.get('input').trigger('keydown', { key: 'y' });
    expect(given).toEqual([]);
  });

  it('does not take the focus if it waits on the page', () => {
    const { field } = question({ standing: true });
    expect(document.activeElement).toBe(field);
  });
});
