// @vitest-environment happy-dom
/** Shop, Stations: what it says of the line, and what its forms ask of the desk. */
import { flushPromises } from '@vue/test-utils';
import { createMemoryHistory, createRouter } from 'vue-router';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { StationRow, StationsView } from '../../../src/bridge/contract.ts';
import StationsGroup from '../../../src/ui/stations/StationsGroup.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const OFF: StationsView = {
  settings: { on: false, address: null, port: 47_115, pins: false, phones: false },
  line: { state: 'off' },
  stations: [], requests: [], code: null, locked: false, withPin: [],
}; // prettier-ignore
const OPEN: StationsView = {
  ...OFF,
  settings: { on: true, address: '192.168.1.5', port: 47_115, pins: false, phones: false },
  line: {
    state: 'open', host: 'desk.local', addresses: ['192.168.1.5'], port: 47_115, isNew: false,
    fingerprints: { sha256: 'AA:BB:CC:DD:EE', sha1: '11:22' },
  },
}; // prettier-ignore
const NETWORKS = [
  { name: 'Wi-Fi', address: '192.168.1.5', onlyHere: false },
  { name: 'lo', address: '127.0.0.1', onlyHere: true },
];

beforeEach(() => openWindow());
afterEach(() => vi.useRealTimers());

async function show(view: Partial<StationsView>, base = OFF) {
  desk.answers['stations.get'] = () => ok({ ...base, ...view });
  desk.answers['stations.listNetworks'] = () => ok(NETWORKS);
  const router = createRouter({
    history: createMemoryHistory(),
    routes: [{ path: '/:rest(.*)*', component: { template: '' } }],
  });
  const shown = mountPart(StationsGroup, { global: { plugins: [router] } });
  await flushPromises();
  return shown;
}
const called = (name: string) => desk.calls.filter((one) => one.name === name).map(({ input }) => input);

it('is off at first, says so, and switches on at the network that others can reach', async () => {
  const shown = await show({});
  expect(shown.text()).toContain('Off. No other device can reach Gambrel.');
  expect(shown.findAll('option').map((one) => one.text())).toEqual([
    '192.168.1.5 (Wi-Fi)',
    '127.0.0.1 (this computer only, to try it out)',
  ]);
  desk.answers['stations.setUp'] = () => ok();
  await shown.get('form').trigger('submit');
  await flushPromises();
  expect(called('stations.setUp')).toEqual([{ on: true, address: '192.168.1.5', pins: false }]);
});

it('reads the networks again when their list is opened', async () => {
  const shown = await show({});
  const before = called('stations.listNetworks').length;
  await shown.get('select').trigger('focus');
  await flushPromises();
  expect(called('stations.listNetworks')).toHaveLength(before + 1);
});

it('says in a sentence what keeps the line shut', async () => {
  const problem = { kind: 'conflict', code: 'line.port-taken', with: { port: 47_115 } } as const;
  const { settings } = OPEN;
  const shown = await show({ settings, line: { state: 'failed', problem } });
  expect(shown.get('[role=alert]').text()).toContain('Another program uses port 47115');
  expect(shown.text()).toContain('Turn stations off');
});

it('keeps a network that is not there now as the choice', async () => {
  const shown = await show({ settings: { ...OPEN.settings, address: '10.0.0.7' } }, OPEN);
  expect(shown.get('select').element.value).toBe('10.0.0.7');
  expect(shown.get('option').text()).toBe('10.0.0.7 (not connected now)');
  await shown.get('select').setValue('192.168.1.5');
  expect(shown.text()).toContain('Use this network');
});

it('shows a code for as long as it works, and asks again when it is over', async () => {
  vi.useFakeTimers();
  const code = { code: 'BCDFGHJK', until: '2026-11-24T20:15:00Z', leftMs: 62_000 };
  const shown = await show({ code }, OPEN);
  expect(shown.get('[data-code]').text()).toBe('BCDF GHJK');
  expect(shown.text()).toContain('for 1:02 more');
  await vi.advanceTimersByTimeAsync(3000);
  expect(shown.text()).toContain('for 0:59 more');
  const before = called('stations.get').length;
  desk.answers['stations.get'] = () => ok(OPEN);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(called('stations.get').length).toBe(before + 1);
  expect(shown.find('[data-code]').exists()).toBe(false);
});

it('asks to compare the number of a device, and puts a refusal at its field', async () => {
  const asked = { request: 'r1', number: '4711', agent: 'iPad', address: '192.168.1.20', askedAt: '' };
  const unknown = { ...asked, request: 'r2', number: '4712', agent: '', address: '192.168.1.21' };
  const shown = await show({ requests: [asked, unknown] }, OPEN);
  const form = shown.get('form[aria-label="A device asks to become a station"]');
  expect(form.text()).toContain('4711');
  expect(form.text()).toContain('iPad at 192.168.1.20');
  expect(shown.text()).toContain('A device at 192.168.1.21');
  desk.answers['stations.allow'] = () => ({
    ok: false,
    problem: { kind: 'invalid', code: 'station.name-taken', field: 'name', with: { name: 'Table 2' } },
  });
  await form.get('input').setValue('Table 2');
  await form.trigger('submit');
  await flushPromises();
  expect(called('stations.allow')).toEqual([
    { request: 'r1', name: 'Table 2', place: 'table', language: 'en-US' },
  ]);
  expect(form.get('.field [role=alert]').text()).toBe('Another station is named Table 2. Pick another name.');
});

const row = (id: number, state: 'open' | 'removed', held: StationRow['held'] = null) => ({
  id, state, name: `Table ${id}`, place: 'table', language: 'en-US', origin: '', agent: '', addedAt: '', addedBy: '',
  entries: 3, connected: false, lastSeen: null, held, decision: null,
}) as const; // prettier-ignore

it('offers a new device every place but the office, for which a station has no screen', async () => {
  const asked = { request: 'r1', number: '4711', agent: 'iPad', address: '192.168.1.20', askedAt: '' };
  const shown = await show({ requests: [asked] }, OPEN);
  const places = shown.findAll('option').map((one) => one.text());
  expect(places).toEqual(expect.arrayContaining(['Counter', 'Hunters’ own check-in']));
  expect(places).not.toContain('Office (everything)');
});

it('says what a station has not sent, and asks about what it holds of another book', async () => {
  desk.answers['stations.decide'] = () => ok();
  const held = { waiting: 19, unanswered: 1, ofOtherBook: 19, left: 0 };
  const shown = await show({ stations: [row(2, 'open', held)] }, OPEN);
  expect(shown.text()).toContain('19 entries not sent · 1 entry needs an answer there');
  expect(shown.text()).toContain('Table 2 still has 19 entries that are not in this book. Add them?');
  await shown.get('[aria-label="Add entries from Table 2"]').trigger('click');
  await flushPromises();
  expect(called('stations.decide')).toEqual([{ id: 2, take: true }]);
});

it('does not list a station that was removed', async () => {
  const shown = await show({ stations: [row(1, 'removed'), row(2, 'open')] }, OPEN);
  expect(shown.text()).toContain('Table 2');
  expect(shown.text()).not.toContain('Table 1');
});
