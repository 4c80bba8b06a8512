// @vitest-environment happy-dom
/** Global keys, and a barcode reader that types into the focused field. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { defineComponent, h } from 'vue';
import { createMemoryHistory, createRouter } from 'vue-router';
import { useFrameKeys } from '../../../src/ui/frame/useFrameKeys.ts';
import { toast } from '../../../src/ui/parts/toasts.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

async function frame() {
  const does = { find: vi.fn(), help: vi.fn(), scanned: vi.fn() };
  const Host = defineComponent({
    setup() {
      useFrameKeys(does);
      return () => [h('input', { value: '18.62' }), h('button')];
    },
  });
  const router = createRouter({
    history: createMemoryHistory(),
    routes: [{ path: '/:place(.*)', component: Host }],
  });
  const wrapper = mountPart(Host, { global: { plugins: [router] } });
  let now = 1000;
  /** Types each key `pauseMs` after the previous one; true if the window handled a key itself. */
  function type(
    keys: readonly string[],
    at: Element,
    more: KeyboardEventInit = {},
    pauseMs = 400,
  ): boolean[] {
    return keys.map((key) => {
      const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more });
      Object.defineProperty(event, 'timeStamp', { value: (now += pauseMs) });
      return !at.dispatchEvent(event);
    });
  }
  const input = wrapper.get('input').element;
  const button = wrapper.get('button').element;
  return { wrapper, router, does, type, input, button };
}

describe('global keys', () => {
  it.each([
    ['Digit1', '/rail'],
    ['Digit3', '/table'],
    ['Digit5', '/smokehouse'],
    ['Digit9', '/books'],
    ['Digit0', '/shop'],
  ])('Alt and %s lead to %s, from a field too', async (code, path) => {
    const { router, type, input } = await frame();
    type(['1'], input, { altKey: true, code });
    await flushPromises();
    expect(router.currentRoute.value.path).toBe(path);
  });

  it('open find and help outside fields, and are letters in one', async () => {
    const { does, type, input, button } = await frame();
    type(['/', '?'], input);
    expect([does.find.mock.calls.length, does.help.mock.calls.length]).toEqual([0, 0]);
    expect(type(['/'], button)).toEqual([true]);
    type(['?'], button);
    type(['k'], input, { ctrlKey: true });
    expect([does.find.mock.calls.length, does.help.mock.calls.length]).toEqual([2, 1]);
  });

  it('undo the last action, but leave the undo of typed text to the field', async () => {
    const { type, input, button } = await frame();
    const undo = vi.fn();
    toast('Kept 18.62 lb trim', undo);
    expect(type(['z'], input, { ctrlKey: true })).toEqual([false]);
    expect(undo).not.toHaveBeenCalled();
    expect(type(['z', 'z'], button, { ctrlKey: true })).toEqual([true, false]);
    expect(undo).toHaveBeenCalledOnce();
  });

  it('open a ticket that is typed or scanned outside fields', async () => {
    const { does, type, button } = await frame();
    expect(type(['1', '4', '7', 'Enter'], button).at(-1)).toBe(true);
    expect(does.scanned).toHaveBeenCalledExactlyOnceWith('147');
  });

  it('remove a barcode from the field that it was scanned into', async () => {
    const { does, type, input } = await frame();
    const reads = vi.fn();
    input.addEventListener('input', reads);
    type(['2'], input, {}, 500);
    input.value = '2';
    type([...'6-0147'], input, {}, 15);
    input.value = '26-0147';
    expect(type(['Enter'], input, {}, 15)).toEqual([true]);
    expect(does.scanned).toHaveBeenCalledExactlyOnceWith('26-0147');
    expect([input.value, reads.mock.calls.length]).toEqual(['18.62', 1]);
  });

  it('leave a typed weight in its field', async () => {
    const { does, type, input } = await frame();
    expect(type([...'26-0147', 'Enter'], input, {}, 120).at(-1)).toBe(false);
    expect(does.scanned).not.toHaveBeenCalled();
  });

  it('end with the frame', async () => {
    const { wrapper, does, type } = await frame();
    wrapper.unmount();
    type(['/'], document.body);
    expect(does.find).not.toHaveBeenCalled();
  });
});
