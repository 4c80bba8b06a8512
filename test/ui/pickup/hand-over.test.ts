// @vitest-environment happy-dom
/** Dialogs for actions that are hard to undo: handing over an animal, and a laboratory result. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { defineComponent } from 'vue';
import { createMemoryHistory, createRouter } from 'vue-router';
import type { AnimalPage, Answer, Problem } from '../../../src/bridge/contract.ts';
import HandOver from '../../../src/ui/pickup/HandOver.vue';
import ResultDialog from '../../../src/ui/holds/ResultDialog.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const refused = (
  kind: Problem['kind'],
  code: string,
  field?: string,
  told: object = {},
): Answer<unknown> => ({
  ok: false,
  problem: { kind, code, field, with: told as Problem['with'] },
});
/** Answers the calls one by one. */
function answers(name: string, ...next: Answer<unknown>[]): void {
  desk.answers[name] = () => next.shift() ?? ok();
}
const sent = (name: string) => desk.calls.filter((one) => one.name === name).map(({ input }) => input);

/** The open dialog, used by its labels and buttons. */
const sheet = {
  get text(): string {
    return document.querySelector('[role=dialog]')?.textContent ?? '';
  },
  field(label: RegExp): HTMLInputElement | null {
    const found = [...document.querySelectorAll<HTMLLabelElement>('[role=dialog] label')].find((one) =>
      label.test(one.textContent ?? ''),
    );
    return (found?.querySelector('input') ??
      document.getElementById(found?.htmlFor ?? '')) as HTMLInputElement | null;
  },
  async type(label: RegExp, text: string): Promise<void> {
    const input = sheet.field(label);
    if (!input) throw new Error(`There is no field ${label}: ${sheet.text}`);
    input.value = text;
    input.dispatchEvent(new Event('input', { bubbles: true }));
    await flushPromises();
  },
  async pick(label: RegExp): Promise<void> {
    sheet.field(label)?.click();
    await flushPromises();
  },
  async press(words: RegExp): Promise<void> {
    // Vue ignores an event in the same millisecond in which its listener was attached.
    await new Promise((later) => setTimeout(later, 5));
    const button = [...document.querySelectorAll<HTMLButtonElement>('[role=dialog] button')].find((one) =>
      words.test(one.textContent ?? ''),
    );
    if (!button) throw new Error(`There is no button ${words}: ${sheet.text}`);
    button.click();
    await flushPromises();
  },
};

describe('handing an animal over', () => {
  const DEER = {
    id: 12, ticket: '26-0012', hunter: 'T. Okonjo', speciesName: 'White-tailed deer', packages: 34, grams: 20_000,
    places: ['Shelf 4'], handedBefore: null, belongings: [], shares: [], notices: [], noticeDue: null, unprocessed: false, doubts: null, answered: null,
  }; // prettier-ignore

  async function opened(animal: object = {}) {
    desk.answers['animals.get'] = () => ok({ lacks: [] });
    desk.answers['bills.get'] ??= () => ok({ draft: null });
    const router = createRouter({
      history: createMemoryHistory(),
      routes: [{ path: '/:place(.*)', component: defineComponent({ render: () => null }) }],
    });
    const wrapper = mountPart(HandOver, { props: { animal: null }, global: { plugins: [router] } });
    await wrapper.setProps({ animal: { ...DEER, ...animal } as never });
    await flushPromises();
    return wrapper;
  }

  it('defaults to the hunter as recipient, and closes when done', async () => {
    answers('pickup.release', ok());
    const wrapper = await opened();
    await sheet.press(/^Hand over$/);
    expect(sent('pickup.release')).toEqual([
      { id: 12, to: 'T. Okonjo', on: '2026-11-24', unpaidBy: '', belongings: [], confirmed: [] },
    ]);
    expect(wrapper.emitted('done')).toHaveLength(1);
    expect(sheet.text).toBe('');
  });

  it('names what the bill would be while none is made', async () => {
    desk.answers['bills.get'] = () => ok({ draft: {}, dueMinor: 29_370, currency: 'USD' });
    const wrapper = await opened({ billed: false });
    expect(sheet.text).toContain('$293.70, not billed yet');
    await wrapper.setProps({ animal: { ...DEER, billed: true, dueMinor: 4550, currency: 'USD' } as never });
    await flushPromises();
    expect(sheet.text).toContain('$45.50 due');
  });

  it('needs initials for an unpaid animal', async () => {
    answers('pickup.release', refused('refused', 'release.unpaid', undefined, { dueMinor: 4550 }));
    await opened();
    expect(sheet.field(/initials/)).toBeNull();
    await sheet.press(/^Hand over$/);
    expect(document.activeElement).toBe(sheet.field(/initials/));
    await sheet.type(/initials/, 'KM');
    await sheet.press(/anyway/);
    expect(sent('pickup.release').at(-1)).toMatchObject({ unpaidBy: 'KM' });
  });

  it('asks about an implausible date once, and sends the confirmation', async () => {
    answers('pickup.release', refused('conflict', 'date.long-ago', 'on', { date: '2021-11-04', years: 5 }));
    await opened({ handedBefore: { to: 'A. Alder', on: '2021-11-04' } });
    await sheet.press(/^Hand over$/);
    await sheet.press(/right/i);
    expect(sent('pickup.release').map(({ confirmed }) => confirmed)).toEqual([[], ['date.long-ago']]);
  });

  it('drops the confirmation when the date changes', async () => {
    const far = refused('conflict', 'date.long-ago', 'on', { date: '2021-11-04', years: 5 });
    answers('pickup.release', far, refused('invalid', 'text.empty', 'to'), far);
    await opened({ handedBefore: { to: 'A. Alder', on: '2021-11-04' } });
    await sheet.press(/^Hand over$/);
    await sheet.press(/right/i);
    await sheet.type(/^Handed over on/, '2020-11-04');
    await sheet.press(/^Hand over$/);
    expect(sent('pickup.release').at(-1)?.confirmed).toEqual([]);
  });
});

describe('a laboratory result', () => {
  async function opened(before: AnimalPage['results'][number] | null = null) {
    const wrapper = mountPart(ResultDialog, {
      props: {
        page: { id: 12, ticket: '26-0012', hold: { sample: 'L26-118', positive: false } } as never,
        holdId: 3,
        before,
        open: false,
        'onUpdate:open': (open: boolean) => wrapper.setProps({ open }),
      },
    });
    await wrapper.setProps({ open: true });
    await flushPromises();
  }

  it('is not saved without a choice', async () => {
    await opened();
    document.querySelector('[role=dialog] form')?.dispatchEvent(new Event('submit', { cancelable: true }));
    await flushPromises();
    expect(desk.calls).toEqual([]);
  });

  it('belongs to the sample of the hold, and to another only if confirmed', async () => {
    answers(
      'animals.testResult',
      refused('conflict', 'result.other-sample', 'sample', {
        sample: 'L26-118',
        ticket: '26-0012',
        typed: 'L26-119',
      }),
    );
    await opened();
    await sheet.pick(/not detected/i);
    await sheet.type(/sample/i, 'L26-119');
    await sheet.press(/^Save result$/);
    expect(sheet.text).not.toBe('');
    await sheet.press(/^Yes, it is this animalY?$/);
    expect(
      sent('animals.testResult').map(({ sample, result, confirmed }) => [sample, result, confirmed]),
    ).toEqual([
      ['L26-119', 'not detected', []],
      ['L26-119', 'not detected', ['result.other-sample']],
    ]);
    expect(sheet.text).toBe('');
  });

  it.each([
    ['one is entered', null, null, 2],
    ['one is corrected, which may also be taken back,', { sample: 'L26-118', lab: 'State lab' }, '', 3],
  ])('for %s asks for a reason only if required', async (_, before, reason, choices) => {
    await opened(before as AnimalPage['results'][number] | null);
    expect(sheet.field(/^Reason/)?.value ?? null).toBe(reason);
    expect(document.querySelectorAll('[role=dialog] input[type=radio]')).toHaveLength(choices);
  });
});
