// @vitest-environment happy-dom
/** What keys do in the parts, and what somebody hears of them. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { defineComponent, h, nextTick, ref } from 'vue';
import Button from '../../../src/ui/parts/Button.vue';
import Check from '../../../src/ui/parts/Check.vue';
import Choice from '../../../src/ui/parts/Choice.vue';
import Combobox from '../../../src/ui/parts/Combobox.vue';
import Field from '../../../src/ui/parts/Field.vue';
import FilePick from '../../../src/ui/parts/FilePick.vue';
import Kbd from '../../../src/ui/parts/Kbd.vue';
import { HELP_HERE, HELP_PAGE } from '../../../src/ui/use/help-page.ts';
import Message from '../../../src/ui/parts/Message.vue';
import PageHead from '../../../src/ui/parts/PageHead.vue';
import Tabs from '../../../src/ui/parts/Tabs.vue';
import Toasts from '../../../src/ui/parts/Toasts.vue';
import { toast } from '../../../src/ui/parts/toasts.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

/** The element that describes another to a screen reader. */
const describedBy = (element: Element): string =>
  (element.getAttribute('aria-describedby') ?? '')
    .split(' ')
    .map((id) => document.getElementById(id)?.textContent?.trim() ?? '')
    .join(' ');

describe('a button', () => {
  it('keeps the focus and ignores presses while it is busy, and says so', async () => {
    const onClick = vi.fn();
    const wrapper = mountPart(Button, {
      props: { busy: true },
      attrs: { onClick },
      slots: { default: () => 'Save' },
    });
    await wrapper.trigger('click');
    expect(onClick).not.toHaveBeenCalled();
    expect(wrapper.attributes()).toMatchObject({ 'aria-busy': 'true', 'aria-disabled': 'true' });
    expect(wrapper.attributes('disabled')).toBeUndefined();
    await wrapper.setProps({ busy: false });
    await wrapper.trigger('click');
    expect(onClick).toHaveBeenCalledOnce();
  });

  it('sends no form of itself, and its key is not heard', () => {
    const wrapper = mountPart(Button, { props: { keys: '⏎' }, slots: { default: () => 'Save' } });
    expect(wrapper.attributes('type')).toBe('button');
    expect(wrapper.get('kbd').attributes('aria-hidden')).toBe('true');
    expect(mountPart(Kbd, { props: { keys: 'S' } }).attributes('aria-hidden')).toBe('true');
  });
});

describe('a choice', () => {
  const options = [
    { value: 'lean', label: 'Whole cuts', key: 'C' },
    { value: 'trim', label: 'Trim', note: 'for the grinder' },
    { value: 'fat', label: 'Fat' },
  ] as const;
  function choice(props: object = {}) {
    const picked: string[] = [];
    const value = ref<string>('');
    const wrapper = mountPart(
      defineComponent(
        () => () =>
        h(Choice, {
          label: 'Part', options, keys: true, modelValue: value.value,
          'onUpdate:modelValue': (now: string) => (value.value = now), onPick: (one: string) => picked.push(one), ...props,
        }), // prettier-ignore
      ),
    );
    return { wrapper, value, picked, group: wrapper.get('fieldset') };
  }

  it('is picked by its own keys or by 1, 2, 3, and moves the focus along', async () => {
    const { group, value, picked, wrapper } = choice();
    await group.trigger('keydown', { key: 'c' });
    expect(value.value).toBe('lean');
    await group.trigger('keydown', { key: '3' });
    expect([value.value, picked]).toEqual(['fat', ['lean', 'fat']]);
    expect(document.activeElement).toBe(wrapper.findAll('input')[2]?.element);
    await group.trigger('keydown', { key: '2', ctrlKey: true });
    expect(value.value).toBe('fat');
  });

  it('moves by arrows without deciding', async () => {
    const { wrapper, value, picked } = choice();
    await wrapper.findAll('input')[1]?.trigger('change');
    expect([value.value, picked]).toEqual(['trim', []]);
  });

  it('is one tab stop: the chosen option, else the first', async () => {
    const { wrapper, value } = choice();
    const stops = (): (string | undefined)[] =>
      wrapper.findAll('input').map((one) => one.attributes('tabindex'));
    expect(stops()).toEqual([undefined, '-1', '-1']);
    value.value = 'fat';
    await nextTick();
    expect(stops()).toEqual(['-1', '-1', undefined]);
  });

  it('is heard as a named group of options with their keys, and its problem with it', () => {
    const { wrapper, group } = choice({ problem: 'Choose a part.' });
    expect(group.get('legend').text()).toBe('Part');
    const heard = wrapper
      .findAll('input')
      .map((one) => [one.attributes('aria-label'), one.attributes('aria-keyshortcuts')]);
    expect(heard).toEqual([['Whole cuts', 'C'], ['Trim', '2'], ['Fat', '3']]); // prettier-ignore
    expect(describedBy(group.element)).toBe('Choose a part.');
    expect(wrapper.get('[role=alert]').text()).toBe('Choose a part.');
  });
});

describe('a field', () => {
  it('is named by its label and described by its help, or by its problem instead', async () => {
    const wrapper = mountPart(Field, { props: { label: 'Phone', hint: 'Ten digits', modelValue: '' } });
    const input = wrapper.get('input');
    expect(wrapper.get('label').attributes('for')).toBe(input.attributes('id'));
    expect([describedBy(input.element), input.attributes('aria-invalid')]).toEqual(['Ten digits', undefined]);
    await wrapper.setProps({ problem: 'Too few digits.' });
    expect([describedBy(input.element), input.attributes('aria-invalid')]).toEqual([
      'Too few digits.',
      'true',
    ]);
    expect(wrapper.get('[role=alert]').text()).toBe('Too few digits.');
  });

  it('for a file says each picked file, the same one again too', async () => {
    const wrapper = mountPart(FilePick, { props: { label: 'Table', hint: 'CSV' } });
    const input = wrapper.get('input');
    expect(describedBy(input.element)).toBe('CSV');
    const file = new File(['a,b'], 'hunters.csv');
    for (let i = 0; i < 2; i++) {
      Object.defineProperty(input.element, 'files', { value: [file], configurable: true });
      await input.trigger('change');
    }
    expect(wrapper.emitted('pick')).toEqual([[file], [file]]);
  });

  it('to tick adds its value to the list of its group', async () => {
    const list = ref<string[]>(['hide']);
    const wrapper = mountPart(
      defineComponent(
        () => () =>
        h(Check, { label: 'Antlers', value: 'antlers', modelValue: list.value, 'onUpdate:modelValue': (now: boolean | string[]) => (list.value = now as string[]) }), // prettier-ignore
      ),
    );
    await wrapper.get('input').setValue(true);
    expect(list.value).toEqual(['hide', 'antlers']);
    expect(wrapper.get('label').text()).toBe('Antlers');
  });
});

describe('a field with a list', () => {
  const options = [
    { id: 1, label: 'Anna Berg' },
    { id: 2, label: 'Anna Bergstrom' },
  ];
  async function box(props: object = {}) {
    const wrapper = mountPart(Combobox, {
      props: { label: 'Name', options, modelValue: '', openEmpty: true, ...props },
    });
    const input = wrapper.get('[role=combobox]');
    await flushPromises();
    (input.element as HTMLInputElement).focus();
    await flushPromises();
    return { wrapper, input };
  }

  it('opens a named list, without an active option before an arrow is pressed', async () => {
    const { wrapper, input } = await box();
    expect(input.attributes('aria-expanded')).toBe('true');
    const list = wrapper.get('[role=listbox]');
    expect([list.attributes('id'), list.attributes('aria-label')]).toEqual([
      input.attributes('aria-controls'),
      'Name',
    ]);
    expect(input.attributes('aria-activedescendant')).toBeUndefined();
    expect(wrapper.findAll('[role=option]').map((one) => one.text())).toEqual([
      'Anna Berg',
      'Anna Bergstrom',
    ]);
  });

  it('closes with Escape alone, and a closed one leaves Escape to the dialog around it', async () => {
    const { wrapper, input } = await box();
    const around = vi.fn();
    document.body.addEventListener('keydown', around);
    await input.trigger('keydown', { key: 'Escape' });
    expect(wrapper.find('[role=listbox]').exists()).toBe(false);
    expect(around).not.toHaveBeenCalled();
    await input.trigger('keydown', { key: 'Escape' });
    expect(around).toHaveBeenCalledOnce();
    document.body.removeEventListener('keydown', around);
  });
});

describe('tabs', () => {
  it('are a named list with one chosen tab and its panel, moved by arrows, Home and End', async () => {
    const open = ref<'a' | 'b' | 'c'>('a');
    const tabs = (['a', 'b', 'c'] as const).map((value) => ({ value, label: value.toUpperCase() }));
    const wrapper = mountPart(
      defineComponent(
        () => () =>
        h(Tabs, { label: 'Books', tabs, modelValue: open.value, 'onUpdate:modelValue': (now) => (open.value = now as 'a') }, () => `Panel ${open.value}`), // prettier-ignore
      ),
    );
    await flushPromises();
    expect(wrapper.get('[role=tablist]').attributes('aria-label')).toBe('Books');
    const chosen = () => wrapper.get('[role=tab][aria-selected=true]');
    for (const [key, label] of [
      ['ArrowRight', 'B'],
      ['End', 'C'],
      ['ArrowRight', 'A'],
      ['Home', 'A'],
    ] as const) {
      // prettier-ignore
      (chosen().element as HTMLElement).focus();
      await chosen().trigger('keydown', { key });
      await flushPromises();
      expect(chosen().text(), key).toBe(label);
    }
    const panel = wrapper.get('[role=tabpanel]');
    expect(panel.attributes('aria-labelledby')).toBe(chosen().attributes('id'));
    expect(panel.text()).toBe('Panel a');
  });
});

describe('what is said', () => {
  it.each([
    ['problem', 'alert'],
    ['ask', 'alert'],
    ['caution', undefined],
    ['notice', undefined],
    ['good', undefined],
  ] as const)('as a %s interrupts only if somebody must answer', (kind, role) => {
    expect(mountPart(Message, { props: { kind } }).attributes('role')).toBe(role);
  });

  it('as a problem leads to the page of the handbook, where there is one', () => {
    const links = (kind: 'problem' | 'ask', help?: string) =>
      mountPart(Message, {
        props: { kind },
        global: { provide: help === undefined ? {} : { [HELP_PAGE as symbol]: ref(help) } },
      })
        .findAll('a')
        .map((link) => link.attributes('href'));
    expect(links('problem', '#/handbook/table')).toEqual(['#/handbook/table']);
    expect(links('ask', '#/handbook/table')).toEqual([]);
    expect(links('problem', '')).toEqual([]);
    expect(links('problem')).toEqual([]);
  });

  it('as a problem in a dialog shows help in place, since a link would leave what was typed', () => {
    const shown = (kind: 'problem' | 'notice', help: string) =>
      mountPart(Message, {
        props: { kind },
        global: {
          provide: {
            [HELP_PAGE as symbol]: ref(help),
            [HELP_HERE as symbol]: { render: () => 'Steps' },
          },
        },
      }).text();
    expect(shown('problem', '')).toContain('Steps');
    expect(shown('problem', '#/handbook/table')).not.toContain('Steps');
    expect(shown('notice', '')).not.toContain('Steps');
  });

  it('as a toast is announced, and undone from it', async () => {
    const wrapper = mountPart(Toasts);
    expect(wrapper.attributes()).toMatchObject({ role: 'status', 'aria-live': 'polite' });
    const undo = vi.fn();
    toast('Saved 17.15 lb trim', undo);
    await nextTick();
    expect(wrapper.text()).toContain('Saved 17.15 lb trim');
    await wrapper.get('button').trigger('click');
    expect(undo).toHaveBeenCalledOnce();
    expect(wrapper.find('.toast').exists()).toBe(false);
  });

  it('as the way back of a page names where it leads', () => {
    const wrapper = mountPart(PageHead, {
      props: { title: 'Labels', back: { to: '/table/26-0147', name: 'the animal' } },
      global: { stubs: { RouterLink: { template: '<a><slot /></a>' } } },
    });
    expect(wrapper.get('a').attributes('aria-label')).toContain('the animal');
    expect(wrapper.get('h1').text()).toBe('Labels');
  });
});
