// @vitest-environment happy-dom
/** The Cooler of a station, mounted: readings, hanging, weighing. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { AnimalPage } from '../../../../src/bridge/contract.ts';
import CoolerPlace from '../../../../src/ui/station/places/cooler/CoolerPlace.vue';
import { mountPart } from '../../mount-part.ts';
import { desk, ok } from '../../played-desk.ts';
import { DEER } from '../deer.ts';
import { openStation } from '../station-window.ts';

vi.mock('../../../../src/bridge/client/index.ts', async () => (await import('../../played-desk.ts')).client);
vi.mock('../../../../src/ui/station/kept/entries.ts', async () => (await import('../kept-entries.ts')).kept);

const BIG = {
  id: 3, name: 'Big', places: 30, hanging: 12, last: { c: 3, at: '2026-11-24T14:00:00Z' }, above: false, minutesAbove: 0,
  longestGapMinutes: 60, readings: [{ id: 8, at: '2026-11-24T14:00:00Z', c: 3, by: 'MK' }],
}; // prettier-ignore
const WARM = {
  ...BIG, id: 4, name: 'Small', above: true, minutesAbove: 90, readings: [], last: { c: 7, at: '2026-11-24T14:00:00Z' },
}; // prettier-ignore

let station: Awaited<ReturnType<typeof openStation>>;
let page: AnimalPage;
beforeEach(async () => {
  station = await openStation();
  page = { ...DEER, stage: 'hanging', weighings: [], where: null };
  desk.answers['coolers.list'] = () => ok([BIG, WARM]);
  desk.answers['photos.list'] = () => ok([]);
  desk.answers['rail.get'] = () => ok({ hooks: [], next: [], limitDays: 7 });
  desk.answers['animals.get'] = () => ok(page);
});

async function cooler() {
  const wrapper = mountPart(CoolerPlace);
  await flushPromises();
  return {
    wrapper,
    async press(name: RegExp, at = 0) {
      await wrapper
        .findAll('button')
        .filter((one) => name.test(one.text()))
        [at]!.trigger('click');
      await flushPromises();
    },
    async enter(typed: string) {
      await wrapper.get('.entry input').setValue(typed);
      await wrapper.get('.entry input').trigger('keydown', { key: 'Enter' });
      await flushPromises();
    },
  };
}

describe('temperatures', () => {
  it('says which cooler is too warm, and what to do with its meat', async () => {
    const { wrapper } = await cooler();
    const cards = wrapper.findAll('.cooler');
    expect(cards[0]!.find('.problem').exists()).toBe(false);
    expect(cards[1]!.get('.problem').text()).toMatch(/^Small is at 45°F.*Do not judge the meat by smell/);
  });

  it('puts a reading into the outbox and shows it as not saved yet', async () => {
    const { press, enter, wrapper } = await cooler();
    await press(/^Enter temperature/, 1);
    await enter('38');
    expect(station.sent()).toMatchObject([
      { name: 'coolers.logTemperature', input: { coolerId: 4, typed: '38' }, shown: 'Small: 38°F' },
    ]);
    expect(wrapper.findAll('.cooler')[1]!.text()).toMatch(/38°F\s*not saved yet/);
  });

  it('gives a reading the minute of the shop’s clock while the desk is away', async () => {
    vi.useFakeTimers({ toFake: ['Date'], now: Date.parse('2026-11-24T21:31:40Z') });
    station.line.connection = { state: 'away', since: null };
    const { press, enter } = await cooler();
    await press(/^Enter temperature/, 1);
    await enter('38');
    expect(station.sent()).toMatchObject([{ input: { earlier: { on: '2026-11-24', time: '14:31' } } }]);
    vi.useRealTimers();
  });

  it('says at once what is no temperature', async () => {
    const { press, enter, wrapper } = await cooler();
    await press(/^Enter temperature/);
    await enter('3.8.1');
    expect(wrapper.get('.entry [role=alert]').text()).toMatch(/temperature/);
    expect(station.sent()).toEqual([]);
  });

  it('voids a mistyped reading', async () => {
    const { press } = await cooler();
    await press(/^Void/);
    [...document.querySelectorAll<HTMLButtonElement>('button')]
      .find((one) => one.textContent?.includes('Mistyped'))!
      .click();
    await flushPromises();
    expect(station.sent()).toMatchObject([
      { name: 'coolers.voidTemperature', input: { readingId: 8, reason: 'mistyped' } },
    ]);
  });
});

describe('an animal at the Cooler', () => {
  async function animal() {
    const opened = await cooler();
    await opened.enter('12');
    return opened;
  }

  it('is hung by a press on the cooler, at the place that was typed', async () => {
    const { press, wrapper } = await animal();
    await wrapper.get('.hang input').setValue('hook 7');
    await press(/^Big/);
    expect(station.sent()).toMatchObject([
      {
        name: 'animals.hang',
        input: { ids: [12], coolerId: 3, place: 'hook 7' },
        shown: '26-0012: Big, hook 7',
      },
    ]);
    expect(wrapper.get('.where').text()).toBe('Big, hook 7 not saved yet');
  });

  it('is weighed on the hook, and once more if a side hangs apart', async () => {
    const { enter } = await animal();
    await enter('80');
    await enter('78');
    expect(station.sent().map(({ input }) => input)).toMatchObject([
      { stage: 'hanging', part: 'carcass', typed: '80' },
      { stage: 'hanging', part: 'carcass', typed: '78' },
    ]);
  });

  it('is weighed as it came if it came in pieces', async () => {
    page = { ...page, brought: 'quarters' };
    const { enter } = await animal();
    await enter('60');
    await enter('22');
    expect(station.sent().map(({ input }) => input)).toMatchObject([
      { stage: 'received', part: 'carcass', typed: '60' },
      { stage: 'received', part: 'carcass', typed: '22' },
    ]);
  });

  it('says that the book has no such ticket', async () => {
    desk.answers['animals.get'] = () => ({ ok: false, problem: { kind: 'missing', code: 'animal.unknown' } });
    const { wrapper } = await animal();
    expect(wrapper.text()).toMatch(/No ticket 26-0012 in the book.*Check the number on the tag/s);
  });

  it('says that the desk is away, instead of an animal that this station never saw', async () => {
    desk.answers['animals.get'] = () => ({ ok: false, problem: { kind: 'missing', code: 'station.away' } });
    const { wrapper } = await animal();
    expect(wrapper.text()).not.toMatch(/No ticket/);
    expect(wrapper.get('[role=alert]').text()).not.toBe('');
  });
});
