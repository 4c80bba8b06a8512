// @vitest-environment happy-dom
/** What is typed in again after a reload, and what must not be. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { defineComponent, h, reactive, ref, type VNode } from 'vue';
import type { BillView } from '../../../src/bridge/contract.ts';
import PaymentForm from '../../../src/ui/bill/PaymentForm.vue';
import { useFormDrafts } from '../../../src/ui/frame/useFormDrafts.ts';
import { ownerChanges, ownerForm } from '../../../src/ui/record/owner-form.ts';
import OwnerFields from '../../../src/ui/record/OwnerFields.vue';
import HunterShare from '../../../src/ui/shares/HunterShare.vue';
import { emptyLine } from '../../../src/ui/shares/shares-form.ts';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const DANA = { id: 1, name: 'Dana Fox', address: '4 Mill Rd', phone: '555 0101' };
const ANA = { id: 2, name: 'Ana Reyes', address: '9 Creek Ln', phone: '555 0199' };
/** Longer than restoring is retried. */
const TRIED_MS = 1900;
const tried = () => new Promise((done) => setTimeout(done, TRIED_MS));

beforeEach(async () => {
  sessionStorage.clear();
  await openWindow();
});

/** A window with one form on its page. */
function show(fields: () => VNode[]) {
  const Page = defineComponent({
    setup() {
      useFormDrafts();
      return () => h('main', h('div', h('form', { 'aria-label': 'Form' }, fields())));
    },
  });
  return mountPart(Page);
}
type Shown = ReturnType<typeof show>;

/** Reloads the window; the caller mounts the new page. */
async function reload(shown: Shown): Promise<void> {
  window.dispatchEvent(new Event('pagehide'));
  shown.unmount();
  await openWindow();
}

function fieldOf(label: string): HTMLInputElement {
  const found = [...document.querySelectorAll('label')].find((one) =>
    one.textContent?.trim().startsWith(label),
  );
  const field = found && document.getElementById(found.htmlFor);
  if (!(field instanceof HTMLInputElement)) throw new Error(`No field ${label}.`);
  return field;
}
async function type(label: string, text: string): Promise<void> {
  const field = fieldOf(label);
  field.focus();
  field.value = text;
  field.dispatchEvent(new Event('input', { bubbles: true }));
  field.dispatchEvent(new Event('change', { bubbles: true }));
  await flushPromises();
}
async function pick(label: string, typed: string, option: string): Promise<void> {
  await type(label, typed);
  const found = await vi.waitFor(() => {
    const all = [...document.querySelectorAll('[role=option]')];
    const one = all.find(({ textContent }) => textContent?.startsWith(option));
    if (!one) throw new Error('Not found yet.');
    return one;
  });
  found.dispatchEvent(new MouseEvent('click', { bubbles: true, cancelable: true }));
  await flushPromises();
}

describe('the owner of an animal', () => {
  const owner = ref(ownerForm(DANA));
  const showOwner = () => {
    desk.answers['hunters.find'] = () => ok([ANA]);
    owner.value = ownerForm(DANA);
    return show(() => [
      h(OwnerFields, {
        modelValue: owner.value,
        'onUpdate:modelValue': (now) => (owner.value = now),
        lacks: [],
        problemAt: () => undefined,
      }),
    ]);
  };
  const changes = () => ownerChanges(owner.value, { hunter: DANA } as never);

  it('stays unchanged when another was selected: no data of the other is restored into the record', async () => {
    const shown = showOwner();
    await pick('Owner', 'an', ANA.name);
    expect(owner.value.picked).toEqual(ANA);
    await reload(shown);
    showOwner();
    await tried();
    expect(owner.value).toEqual(ownerForm(DANA));
    expect(changes()).toEqual({});
  });

  it('stays unchanged when another of the same name was selected', async () => {
    const namesake = { ...ANA, name: DANA.name };
    const shown = showOwner();
    desk.answers['hunters.find'] = () => ok([namesake]);
    await pick('Owner', 'Dana F', namesake.name);
    expect(owner.value.picked).toEqual(namesake);
    await reload(shown);
    showOwner();
    await tried();
    expect(owner.value).toEqual(ownerForm(DANA));
  });

  it('is restored as a new hunter if typed as one', async () => {
    const shown = showOwner();
    await type('Owner', 'Bo Lind');
    const radio = document.querySelectorAll<HTMLInputElement>('[type=radio]')[1];
    radio?.dispatchEvent(new MouseEvent('click', { bubbles: true, detail: 1 }));
    await flushPromises();
    await type('Owner’s address', '7 Pine St');
    await type('Owner’s phone', '555 0111');
    const typed = changes();
    expect(typed.owner).toMatchObject({ name: 'Bo Lind', address: '7 Pine St', phone: '555 0111' });
    await reload(shown);
    showOwner();
    await tried();
    expect(changes()).toEqual(typed);
  });
});

it('a share typed for a selected hunter is not restored for the previous one', async () => {
  const dana: ReturnType<typeof emptyLine> = {
    ...emptyLine(),
    hunterId: DANA.id,
    name: DANA.name,
    typed: '50',
  };
  const line = ref<ReturnType<typeof emptyLine>>(dana);
  const showLine = () => {
    desk.answers['hunters.find'] = () => ok([ANA]);
    line.value = dana;
    return show(() => [
      h(HunterShare, {
        n: 1,
        label: 'Percent',
        removable: false,
        modelValue: line.value,
        'onUpdate:modelValue': (now) => (line.value = now),
      }),
    ]);
  };
  const shown = showLine();
  await pick('Hunter 1', 'an', ANA.name);
  await type('Percent', '70');
  expect(line.value).toMatchObject({ hunterId: ANA.id, typed: '70' });
  await reload(shown);
  showLine();
  await tried();
  expect(line.value).toEqual(dana);
});

describe('a payment', () => {
  const share = { share: 0.5, totalMinor: 10_000, paidMinor: 0, dueMinor: 10_000 };
  const view = {
    animalId: 1, bill: { id: 3 }, draft: null, dueMinor: 20_000, paidMinor: 0, paidIn: 'USD', currency: 'USD',
    shares: [{ ...share, hunterId: 1, name: DANA.name }, { ...share, hunterId: 2, name: ANA.name }],
  } as unknown as BillView; // prettier-ignore
  const showPayment = () => show(() => [h(PaymentForm, { view })]);
  const payerOf = (value: string) =>
    document.querySelector<HTMLInputElement>(`[type=radio][value="${value}"]`) as HTMLInputElement;
  async function payerIs(value: string): Promise<void> {
    const radio = payerOf(value);
    radio.focus();
    radio.checked = true;
    radio.dispatchEvent(new Event('change', { bubbles: true }));
    await flushPromises();
  }

  it('restores the typed amount together with the hunter who pays', async () => {
    const shown = showPayment();
    await payerIs('2');
    await type('Amount', '35.50');
    await reload(shown);
    showPayment();
    await tried();
    expect([payerOf('2').checked, fieldOf('Amount').value]).toEqual([true, '35.50']);
  });

  it('is not overwritten while the person types', async () => {
    const shown = showPayment();
    await type('Amount', '35.50');
    await reload(shown);
    showPayment();
    await vi.waitFor(() => expect(fieldOf('Amount').value).toBe('35.50'));
    await type('Amount', '40');
    await tried();
    expect(fieldOf('Amount').value).toBe('40');
  });
});

describe('a select field', () => {
  const state = reactive({ species: 'deer', options: ['deer'] });
  const showList = () =>
    show(() => [
      h(
        'select',
        {
          'aria-label': 'Species',
          value: state.species,
          onChange: (event: Event) => (state.species = (event.target as HTMLSelectElement).value),
        },
        state.options.map((value) => h('option', { value }, value)),
      ),
    ]);
  const select = () => document.querySelector('select') as HTMLSelectElement;

  it('is restored once its option is available', async () => {
    Object.assign(state, { species: 'deer', options: ['deer', 'elk'] });
    const shown = showList();
    select().focus();
    select().value = 'elk';
    select().dispatchEvent(new Event('change', { bubbles: true }));
    await reload(shown);
    Object.assign(state, { species: 'deer', options: ['deer'] });
    showList();
    await tried();
    expect([select().value, state.species]).toEqual(['deer', 'deer']);
    state.options.push('elk');
    await tried();
    expect([select().value, state.species]).toEqual(['elk', 'elk']);
  });
});

it('a form whose page reports the requests that the reload aborts comes back too', async () => {
  const showOne = () => show(() => [h('input', { 'aria-label': 'How many', value: '12', id: 'count' })]);
  const shown = showOne();
  const count = () => document.getElementById('count') as HTMLInputElement;
  count().focus();
  count().value = '3';
  count().dispatchEvent(new Event('input', { bubbles: true }));
  window.dispatchEvent(new Event('beforeunload'));
  count().remove();
  await reload(shown);
  showOne();
  await tried();
  expect(count().value).toBe('3');
});

it('an autosaved field does not prevent restoring the others', async () => {
  const saved = { ingredients: '' };
  const showLabels = () => show(() => [
    h('input', { 'aria-label': 'Also in it', value: saved.ingredients, id: 'also' }),
    h('input', { 'aria-label': 'How many', value: '12', id: 'count' }),
  ]); // prettier-ignore
  const put = (id: string, text: string) => {
    const field = document.getElementById(id) as HTMLInputElement;
    field.focus();
    field.value = text;
    field.dispatchEvent(new Event('input', { bubbles: true }));
  };
  const shown = showLabels();
  put('also', 'salt');
  saved.ingredients = 'salt';
  put('count', '3');
  await reload(shown);
  showLabels();
  await tried();
  expect((document.getElementById('count') as HTMLInputElement).value).toBe('3');
});
