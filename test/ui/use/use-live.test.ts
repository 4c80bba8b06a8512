// @vitest-environment happy-dom
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { defineComponent, ref } from 'vue';
import { useLive } from '../../../src/ui/use/useLive.ts';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

/** Answers that wait until the test gives them, oldest first. */
let waiting: ((value: unknown) => void)[] = [];
beforeEach(async () => {
  await openWindow();
  waiting = [];
  desk.answers['animals.find'] = () => new Promise((give) => waiting.push((value) => give(ok(value))));
});

/** A field whose text is looked up in turn. */
function typing() {
  const text = ref('');
  let shown: () => unknown = () => undefined;
  const wrapper = mountPart(
    defineComponent({
      setup() {
        const found = useLive('animals.find', () => (text.value ? { text: text.value } : null), {
          inTurn: true,
        });
        shown = () => found.value.value;
        return () => null;
      },
    }),
  );
  return {
    wrapper,
    shown: () => shown(),
    asked: () => desk.calls.map(({ input }) => input.text),
    async type(now: string): Promise<void> {
      text.value = now;
      await flushPromises();
    },
    async answer(value: unknown): Promise<void> {
      waiting.shift()?.(value);
      await flushPromises();
    },
  };
}

describe('a query that is asked in turn', () => {
  it('is asked at once, and only once at a time: the newest text when the answer is here', async () => {
    const { type, answer, asked, shown } = typing();
    await type('d');
    expect(asked()).toEqual(['d']);
    await type('da');
    await type('dan');
    expect(asked()).toEqual(['d']);
    await answer(['of d']);
    expect(shown()).toEqual(['of d']);
    expect(asked()).toEqual(['d', 'dan']);
    await answer(['of dan']);
    expect(shown()).toEqual(['of dan']);
    expect(asked()).toEqual(['d', 'dan']);
  });

  it('shows nothing once the text is gone, whatever was under way, and asks anew afterwards', async () => {
    const { type, answer, asked, shown } = typing();
    await type('d');
    await type('da');
    await type('');
    await answer(['of d']);
    expect(shown()).toBeNull();
    expect(asked()).toEqual(['d']);
    await type('w');
    expect(asked()).toEqual(['d', 'w']);
  });

  it('asks nothing more after its part is gone', async () => {
    const { type, answer, asked, wrapper } = typing();
    await type('d');
    await type('da');
    wrapper.unmount();
    await answer(['of d']);
    expect(asked()).toEqual(['d']);
  });
});
