// @vitest-environment happy-dom
/** Dialogs rendered at the end of the body: content, calls and focus. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { h } from 'vue';
import Dialog from '../../../src/ui/parts/Dialog.vue';
import Toasts from '../../../src/ui/parts/Toasts.vue';
import { toast } from '../../../src/ui/parts/toasts.ts';
import VoidDialog from '../../../src/ui/weighing/VoidDialog.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const sheet = (): HTMLElement | null => document.querySelector('[role=dialog]');
function within<T extends HTMLElement = HTMLElement>(selector: string, words: RegExp = /./): T {
  const found = [...(sheet()?.querySelectorAll<T>(selector) ?? [])].find(
    (one) => words.test(one.textContent ?? '') || one instanceof HTMLInputElement,
  );
  if (!found) throw new Error(`There is no ${selector} ${words}: ${sheet()?.textContent}`);
  return found;
}
async function type(input: HTMLInputElement, text: string): Promise<void> {
  input.value = text;
  input.dispatchEvent(new Event('input', { bubbles: true }));
  await flushPromises();
}
async function press(words: RegExp): Promise<void> {
  within('button', words).click();
  await flushPromises();
}

describe('a dialog', () => {
  async function opened() {
    const opener = document.body.appendChild(document.createElement('button'));
    opener.focus();
    const wrapper = mountPart(Dialog, {
      props: { open: false, title: 'Void?', 'onUpdate:open': (open) => wrapper.setProps({ open }) },
      slots: { default: () => h('input', { name: 'why' }) },
    });
    await wrapper.setProps({ open: true });
    await flushPromises();
    return { wrapper, opener };
  }
  const key = (name: string) =>
    document.dispatchEvent(new KeyboardEvent('keydown', { key: name, bubbles: true, cancelable: true }));

  it('is labelled by its title and focuses its first field', async () => {
    await opened();
    const title = document.getElementById(sheet()?.getAttribute('aria-labelledby') ?? '');
    expect(title?.textContent).toBe('Void?');
    expect(document.activeElement).toBe(within('input'));
  });

  it('closes on Escape, and returns the focus to its opener', async () => {
    const { opener } = await opened();
    key('Escape');
    await vi.waitFor(() => expect(sheet()).toBeNull());
    await vi.waitFor(() => expect(document.activeElement).toBe(opener));
  });

  it('stays open on a press outside, because typed text would be lost', async () => {
    await opened();
    await new Promise((listening) => setTimeout(listening));
    document.body.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true, cancelable: true }));
    await flushPromises();
    expect(sheet()).not.toBeNull();
  });
});

describe('voiding a weight', () => {
  async function asked() {
    const wrapper = mountPart(VoidDialog, { props: { weighing: null } });
    await wrapper.setProps({ weighing: { id: 7, what: 'trim', grams: 8445.89 } });
    await flushPromises();
    return wrapper;
  }

  const reasons = (): HTMLButtonElement[] => [
    ...(sheet()?.querySelectorAll<HTMLButtonElement>('[role=group] button') ?? []),
  ];

  it('names the weight, and records the reason that is pressed', async () => {
    desk.answers['table.void'] = () => ok();
    const wrapper = await asked();
    expect(sheet()?.textContent).toContain('Void trim 18.62 lb?');
    reasons()[0]?.click();
    await flushPromises();
    expect(desk.calls.at(-1)).toEqual({
      name: 'table.void',
      input: { weighingId: 7, reason: 'weighed twice' },
    });
    expect(wrapper.emitted('done')).toHaveLength(1);
    expect(sheet()).toBeNull();
  });

  it('records the reason of a number key', async () => {
    desk.answers['table.void'] = () => ok();
    await asked();
    reasons()[0]?.dispatchEvent(new KeyboardEvent('keydown', { key: '2', bubbles: true, cancelable: true }));
    await flushPromises();
    expect(desk.calls.at(-1)?.input).toEqual({ weighingId: 7, reason: 'wrong animal' });
    expect(sheet()).toBeNull();
  });

  it('names a weight as it was typed', async () => {
    const wrapper = await asked();
    await wrapper.setProps({ weighing: { id: 9, what: 'trim', grams: 49_044.7, said: '108 lb 2 oz' } });
    await flushPromises();
    expect(sheet()?.textContent).toContain('Void trim 108 lb 2 oz?');
  });

  it('asks for text if no reason fits, and sends that', async () => {
    desk.answers['table.void'] = () => ok();
    await asked();
    reasons().at(-1)?.click();
    await flushPromises();
    await type(within<HTMLInputElement>('input[maxlength]'), 'The tote was not empty.');
    within('form').dispatchEvent(new Event('submit', { cancelable: true }));
    await flushPromises();
    expect(desk.calls.at(-1)?.input).toEqual({ weighingId: 7, reason: 'The tote was not empty.' });
  });

  it("stays open with the desk's refusal, which is cleared the next time", async () => {
    desk.answers['table.void'] = () => ({
      ok: false,
      problem: { kind: 'invalid', code: 'text.empty', field: 'reason' },
    });
    const wrapper = await asked();
    reasons().at(-1)?.click();
    await flushPromises();
    within('form').dispatchEvent(new Event('submit', { cancelable: true }));
    await flushPromises();
    expect(within('.problem').textContent).not.toBe('');
    expect(wrapper.emitted('done')).toBeUndefined();
    await wrapper.setProps({ weighing: null });
    await wrapper.setProps({ weighing: { id: 8, what: 'fat', grams: 4000 } });
    await flushPromises();
    expect(sheet()?.querySelector('.problem')).toBeNull();
  });

  it('voids nothing when it is closed', async () => {
    const wrapper = await asked();
    await press(/cancel/i);
    expect(desk.calls).toEqual([]);
    expect(wrapper.emitted('done')).toHaveLength(1);
  });
});

describe('a toast', () => {
  beforeEach(() => void vi.useFakeTimers());
  it('is shown for ten seconds, only the newest', async () => {
    const wrapper = mountPart(Toasts);
    toast('Kept 18.62 lb trim');
    await vi.advanceTimersByTimeAsync(9_000);
    toast('Kept 4.10 lb fat');
    await vi.advanceTimersByTimeAsync(9_000);
    expect(wrapper.findAll('.toast').map((one) => one.get('span').text())).toEqual(['Kept 4.10 lb fat']);
    await vi.advanceTimersByTimeAsync(1_000);
    expect(wrapper.find('.toast').exists()).toBe(false);
    vi.useRealTimers();
  });

  it('is undone once, by its button', async () => {
    vi.useRealTimers();
    const wrapper = mountPart(Toasts);
    const undo = vi.fn();
    toast('Kept 18.62 lb trim', undo);
    await flushPromises();
    await wrapper.get('button').trigger('click');
    expect(undo).toHaveBeenCalledOnce();
    expect(wrapper.find('.toast').exists()).toBe(false);
  });
});
