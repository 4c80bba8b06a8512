// @vitest-environment happy-dom
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { reactive } from 'vue';
import type { Answer, Problem } from '../../../src/bridge/contract.ts';
import SaveWeight from '../../../src/ui/batch/SaveWeight.vue';
import type { SavedWeight, TypedWeight } from '../../../src/ui/weighing/useSaveWeight.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const kept: Answer<SavedWeight> = { ok: true, value: { weighingId: 7, grams: 8445.89 } };
const refusedFor = (problem: Problem): Answer<never> => ({ ok: false, problem });
const doubt: Problem = {
  kind: 'conflict',
  code: 'weight.over',
  with: { grams: 84_000, overGrams: 50_000, likely: '18.6' },
};

/** An entry at the grinder whose weights get these answers, one after another. */
function entry(...answers: (Answer<SavedWeight> | Promise<Answer<SavedWeight>>)[]) {
  const draft = reactive({ typed: '186', taken: null });
  const sent: TypedWeight[] = [];
  const wrapper = mountPart(SaveWeight, {
    props: {
      label: 'Trim',
      draft,
      send: async (weight: TypedWeight) => {
        sent.push(weight);
        return answers.shift() ?? kept;
      },
    },
  });
  const press = async (words: string | RegExp): Promise<void> => {
    const button = wrapper.findAll('button').find((one) => one.text().match(words));
    if (!button) throw new Error(`There is no button ${words}: ${wrapper.text()}`);
    await button.trigger('click');
    await flushPromises();
  };
  const enter = async (): Promise<void> => {
    await wrapper.get('input').trigger('keydown', { key: 'Enter' });
    await flushPromises();
  };
  return { wrapper, draft, sent, press, enter };
}

describe('saving a weight', () => {
  it('clears and focuses the entry for the next one, and reports it', async () => {
    const { wrapper, draft, sent, enter } = entry(kept);
    await enter();
    expect(sent).toEqual([{ typed: '186', source: 'typed', confirmed: false }]);
    expect(draft.typed).toBe('');
    expect(wrapper.emitted('saved')).toHaveLength(1);
    expect(document.activeElement).toBe(wrapper.get('input').element);
  });

  it('keeps an invalid text in the entry, with a sentence', async () => {
    const { wrapper, draft, enter } = entry(refusedFor({ kind: 'invalid', code: 'reading.empty' }));
    await enter();
    expect(draft.typed).toBe('186');
    expect(wrapper.get('[role=alert]').text()).toMatch(/^Type a weight/);
    expect(wrapper.emitted('saved')).toBeUndefined();
  });

  it('questions an implausible weight, and saves the suggested correction', async () => {
    const { wrapper, draft, sent, press, enter } = entry(refusedFor(doubt));
    await enter();
    expect(wrapper.text()).toContain('Did you mean 18.6 lb?');
    await press(/18\.6/);
    expect(sent.at(-1)).toEqual({ typed: '18.6', source: 'typed', confirmed: false });
    expect(draft.typed).toBe('');
    expect(wrapper.text()).not.toContain('Did you mean');
  });

  it('saves a doubtful weight as typed once confirmed', async () => {
    const { sent, press, enter, wrapper } = entry(refusedFor(doubt));
    await enter();
    await press(/186/);
    expect(sent.at(-1)).toEqual({ typed: '186', source: 'typed', confirmed: true });
    expect(wrapper.emitted('saved')).toHaveLength(1);
  });

  it('starts again without saving', async () => {
    const { wrapper, draft, sent, press, enter } = entry(refusedFor(doubt));
    await enter();
    await press(/again/i);
    expect([draft.typed, sent.length, wrapper.emitted('saved')]).toEqual(['', 1, undefined]);
    expect(document.activeElement).toBe(wrapper.get('input').element);
  });

  it('ignores a second press while the first is pending', async () => {
    let answerFirst: (answer: Answer<SavedWeight>) => void = () => undefined;
    const first = new Promise<Answer<SavedWeight>>((resolve) => (answerFirst = resolve));
    const { wrapper, draft, enter } = entry(first, refusedFor({ kind: 'conflict', code: 'desk.already' }));
    await enter();
    await enter();
    expect(wrapper.findAll('button')).toHaveLength(1);
    answerFirst(kept);
    await flushPromises();
    expect([draft.typed, wrapper.emitted('saved')?.length]).toEqual(['', 1]);
  });
});
