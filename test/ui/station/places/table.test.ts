// @vitest-environment happy-dom
/** The Table of a station, mounted: weights go to the outbox, doubts come back as questions. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { AnimalPage } from '../../../../src/bridge/contract.ts';
import EntryQuestions from '../../../../src/ui/station/places/asks/EntryQuestions.vue';
import TablePlace from '../../../../src/ui/station/places/table/TablePlace.vue';
import { mountPart } from '../../mount-part.ts';
import { desk, ok } from '../../played-desk.ts';
import { DEER, row } from '../deer.ts';
import { openStation } from '../station-window.ts';

vi.mock('../../../../src/bridge/client/index.ts', async () => (await import('../../played-desk.ts')).client);
vi.mock('../../../../src/ui/station/kept/entries.ts', async () => (await import('../kept-entries.ts')).kept);

const HOOK = {
  id: 12, ticket: '26-0012', speciesName: 'White-tailed deer', hunter: 'Ana Ruiz', stage: 'cutting', hold: null, notAsked: false,
  grams: 36_287, said: null, days: 3, promisedOn: null, cooler: null, place: null,
}; // prettier-ignore
const HELD = { ...HOOK, id: 13, ticket: '26-0013', stage: 'hanging', hold: 'sample', cooler: 'Big', days: 9 };
const lastAsked = (call: string) => desk.calls.findLast(({ name }) => name === call);

let station: Awaited<ReturnType<typeof openStation>>;
let page: AnimalPage;
beforeEach(async () => {
  station = await openStation();
  page = DEER;
  desk.answers['rail.get'] = () =>
    ok({ hooks: [HOOK, HELD], next: [{ id: 13, ticket: '26-0013', why: 'over-limit' }], limitDays: 7 });
  desk.answers['photos.list'] = () => ok([]);
  desk.answers['animals.get'] = () => ok(page);
});

async function table() {
  const wrapper = mountPart(TablePlace);
  await flushPromises();
  const press = async (name: string | RegExp): Promise<void> => {
    const found = wrapper.findAll('button').filter((one) => one.text().match(name));
    await found[0]!.trigger('click');
    await flushPromises();
  };
  return {
    wrapper,
    press,
    entry: () => wrapper.get<HTMLInputElement>('.entry input').element,
    async enter(typed: string) {
      await wrapper.get('.entry input').setValue(typed);
      await wrapper.get('.entry input').trigger('keydown', { key: 'Enter' });
      await flushPromises();
    },
    async pick(label: string) {
      await wrapper.get(`input[type=radio][aria-label="${label}"]`).trigger('click', { detail: 1 });
      await flushPromises();
    },
  };
}

/** The Table with the deer on it. */
async function deer() {
  const opened = await table();
  await opened.press('26-0012');
  return opened;
}

describe('the Table without an animal', () => {
  it('shows what lies on it, the next to cut with why, and its hold', async () => {
    const { wrapper } = await table();
    expect(wrapper.text()).toMatch(
      /On the table now.*26-0012.*Next to cut.*26-0013.*sample pending.*Big.*limit of 7/s,
    );
  });

  it('opens a ticket by its last digits, from the pad', async () => {
    const { press, wrapper } = await table();
    for (const key of ['1', '2']) await press(new RegExp(`^${key}$`));
    await press('Open');
    expect(lastAsked('animals.get')).toEqual({ name: 'animals.get', input: { ticket: '26-0012' } });
    expect(wrapper.get('h2').text()).toBe('26-0012');
  });

  it('says that a word is no ticket, and asks nothing', async () => {
    const { enter, wrapper } = await table();
    await enter('deer');
    expect(wrapper.get('[role=alert]').text()).toMatch(/^That is not a ticket number/);
    expect(desk.calls.every(({ name }) => name === 'rail.get')).toBe(true);
  });
});

describe('an animal on the Table', () => {
  it('puts a weight into the outbox, marks it as not saved yet, and leaves the entry free', async () => {
    const { pick, enter, entry, wrapper } = await deer();
    await pick('Trim');
    await enter('18.62');
    expect(station.sent()).toMatchObject([
      {
        name: 'table.weigh',
        input: { animalId: 12, stage: 'cut', part: 'trim', typed: '18.62', confirmed: false },
        shown: '26-0012: Trim 18.62 lb',
      },
    ]);
    expect(entry().value).toBe('');
    expect(wrapper.get('.weights').text()).toMatch(/18\.62 lb.*Trim.*not saved yet/);
  });

  it('types by its own keys: pounds and ounces, and a digit taken off', async () => {
    const { press, entry } = await deer();
    for (const key of ['1', '9', '⌫', '8', 'lb', '6', 'oz']) await press(new RegExp(`^${key}$`));
    expect(entry().value).toBe('18 lb 6 oz');
  });

  it('says at once what it cannot read, and sends nothing', async () => {
    const { enter, entry, wrapper } = await deer();
    await enter('8..2');
    expect(wrapper.get('.problem').text()).not.toBe('');
    expect(entry().value).toBe('8..2');
    expect(station.sent()).toEqual([]);
  });

  it('weighs the parts after the hanging weight, though the desk did not answer yet', async () => {
    page = { ...DEER, stage: 'hanging', weighings: [] };
    const { enter } = await deer();
    await enter('80');
    await enter('12.4');
    expect(station.sent().map(({ input }) => input)).toMatchObject([
      { stage: 'hanging', part: 'carcass' },
      { stage: 'cut', part: 'whole cuts' },
    ]);
  });

  it('states that there is no bone by a zero', async () => {
    const { pick, enter } = await deer();
    await pick('Bone');
    await enter('0');
    expect(station.sent()).toMatchObject([
      { name: 'table.stateNone', input: { animalId: 12, part: 'bone' } },
    ]);
  });

  it('subtracts a container that was typed before', async () => {
    const { press, enter } = await deer();
    await press('Container');
    await enter('2.5');
    await enter('20');
    expect(station.sent()).toMatchObject([{ input: { typed: '20', tareTyped: '2.5' } }]);
  });

  it('counts the packages by their weight, or as typed by the pad', async () => {
    page = { ...DEER, stage: 'packing' };
    const { press, enter } = await deer();
    await enter('12');
    await press('Packages: –');
    await enter('5');
    await enter('8');
    expect(station.sent().map(({ input }) => input)).toMatchObject([
      { stage: 'packed', part: 'package', product: 'Steaks and roasts', typed: '12', count: 12 },
      { stage: 'packed', typed: '8', count: 5 },
    ]);
  });

  it('voids a saved weight for a reason, by two presses', async () => {
    const { press } = await deer();
    await press('Void');
    const why = [...document.querySelectorAll('.dialog button, dialog button')].find((one) =>
      one.textContent?.includes('Wrong animal'),
    ) as HTMLButtonElement;
    why.click();
    await flushPromises();
    expect(station.sent()).toMatchObject([
      { name: 'table.void', input: { weighingId: 1, reason: 'wrong animal' } },
    ]);
  });

  it('corrects a saved weight', async () => {
    const { press, enter, wrapper } = await deer();
    await press('Edit');
    expect(wrapper.get('.entry .name').text()).toBe('Hanging weight, was 80 lb');
    await enter('81');
    expect(station.sent()).toMatchObject([{ name: 'table.correct', input: { weighingId: 1, typed: '81' } }]);
  });

  it('asks about a saved weight that does not fit, and makes it what was meant', async () => {
    const suspect = { weighingId: 2, typed: '81', likely: { typed: '18', kind: 'digits-swapped' } };
    page = {
      ...DEER,
      weighings: [row({}), row({ id: 2, stage: 'cut', part: 'bone', typed: '81' })],
      balance: { suspects: [suspect], doubtful: true, overGrams: 900 },
    } as unknown as AnimalPage;
    const { wrapper, press } = await deer();
    expect(wrapper.get('.ask').text()).toMatch(/81 lb.*Bone.*two digits changed places/);
    await press('Make it 18 lb');
    expect(station.sent()).toMatchObject([
      { name: 'table.correct', input: { weighingId: 2, typed: '18', confirmed: true } },
    ]);
  });

  it('offers no weighing after a positive result, and says so', async () => {
    page = { ...DEER, hold: { id: 1, reason: 'sample', sample: 'A1', openedAt: '', positive: true } };
    const { wrapper } = await deer();
    expect(wrapper.find('.entry').exists()).toBe(false);
    expect(wrapper.get('.stop').text()).toBe('Sample A1 tested positive: do not release');
  });

  it('opens another animal when its tag is scanned into the entry', async () => {
    const { enter } = await deer();
    await enter('26-0013');
    expect(lastAsked('animals.get')).toEqual({ name: 'animals.get', input: { ticket: '26-0013' } });
    expect(station.sent()).toEqual([]);
  });

  it('moves the animal on', async () => {
    const { press } = await deer();
    await press('Finished cutting');
    expect(station.sent()).toMatchObject([
      { name: 'animals.setStage', input: { id: 12, stage: 'packing' }, shown: '26-0012: Packing' },
    ]);
  });
});

describe('what the desk doubts', () => {
  const unlikely = {
    kind: 'conflict' as const,
    code: 'weight.unlikely',
    with: { grams: 38_374, part: 'trim', low: 5000, high: 9000, likely: '18.62', slip: 'decimal-slipped' },
  };

  async function doubted() {
    const { enter } = await deer();
    await enter('186.2');
    await station.answer({ state: 'asks', problem: unlikely });
    const asks = mountPart(EntryQuestions);
    const press = async (name: RegExp): Promise<void> => {
      await asks
        .findAll('button')
        .find((one) => name.test(one.text()))!
        .trigger('click');
      await flushPromises();
    };
    return { asks, press };
  }

  it('is asked with the meant weight as the first button', async () => {
    const { asks, press } = await doubted();
    expect(asks.text()).toMatch(/^26-0012: Whole cuts 186\.2 lb/);
    expect(asks.findAll('button').map((one) => one.text())).toEqual([
      'Make it 18.62 lb',
      'Yes, save 186.2 lb',
      'No, weigh again',
    ]);
    await press(/^Make it/);
    expect(station.sent().at(-1)).toMatchObject({
      input: { typed: '18.62', confirmed: false },
      shown: '26-0012: Whole cuts 18.62 lb',
    });
    expect(asks.findAll('button')).toEqual([]);
  });

  it('is saved as typed after a yes', async () => {
    const { press } = await doubted();
    await press(/^Yes/);
    expect(station.sent().at(-1)).toMatchObject({ input: { typed: '186.2', confirmed: true } });
  });

  it('is dropped after a no, and stays among the entries', async () => {
    const { press } = await doubted();
    await press(/^No/);
    expect(station.sent()).toHaveLength(1);
    expect(station.line.entries[0]?.outcome.state).toBe('dropped');
  });

  it('is said with one button where nobody can confirm it', async () => {
    const { enter } = await deer();
    await enter('5');
    await station.answer({
      state: 'refused',
      problem: { kind: 'refused', code: 'cut.held', with: { ticket: '26-0012' } },
    });
    const asks = mountPart(EntryQuestions);
    expect(asks.findAll('button').map((one) => one.text())).toEqual(['OK']);
  });
});
