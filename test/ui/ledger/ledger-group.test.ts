// @vitest-environment happy-dom
/** Shop, Ledger: a sentence for every code, what waits, and what its form asks of the desk. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { flushPromises } from '@vue/test-utils';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { LedgerSettings, LedgerState, LedgerView } from '../../../src/bridge/contract.ts';
import LedgerGroup from '../../../src/ui/ledger/LedgerGroup.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const ROOT = join(import.meta.dirname, '../../..');
const WORDS = join(ROOT, 'src/words');
const pages = (language: string): Record<string, string> =>
  JSON.parse(readFileSync(join(WORDS, `compiled/handbook/pages/${language}.json`), 'utf8')) as Record<
    string,
    string
  >;
const codes = [
  ...readFileSync(join(ROOT, 'src/ledger/server/ledger-error.ts'), 'utf8').matchAll(/^ {2}\| '([a-z-]+)'/gm),
].map(([, code]) => code ?? '');

const SET: LedgerSettings = {
  on: true, host: 'ledger.example', port: 5433, database: 'shops', user: 'north', tls: 'verified', ca: null, personal: false,
  branch: 1, since: '2026-11-24T10:00:00Z',
}; // prettier-ignore
const OFF: LedgerView = {
  settings: null, hasPassword: false, state: { kind: 'off' }, backlog: { changes: 0, since: null },
}; // prettier-ignore
const ON: LedgerView = { ...OFF, settings: SET, hasPassword: true };

beforeEach(async () => {
  await openWindow();
  vi.stubGlobal('fetch', () =>
    Promise.resolve({ ok: true, json: () => Promise.resolve(pages('en-US')) } as unknown as Response),
  );
});
afterEach(() => vi.unstubAllGlobals());

async function show(view: LedgerView) {
  desk.answers['ledger.get'] = () => ok(view);
  const shown = mountPart(LedgerGroup);
  await flushPromises();
  return shown;
}
type Shown = Awaited<ReturnType<typeof show>>;
const called = (name: string) => desk.calls.filter((one) => one.name === name).map(({ input }) => input);
const button = (shown: Shown, name: string) => shown.findAll('button').find((one) => one.text() === name);
async function press(shown: Shown, name: string): Promise<void> {
  await button(shown, name)?.trigger('click');
  await flushPromises();
}

it.each(['en-US', 'es-MX', 'fr-CA'])('has a sentence for every code, in %s', (language) => {
  expect(codes.length).toBeGreaterThan(18);
  const texts = pages(language);
  const sentences = [...codes, 'broken'].map((code) => texts[`ledger.${code}`] ?? '');
  expect(sentences.filter((sentence) => sentence.length < 20)).toEqual([]);
  expect(new Set(sentences).size).toBe(sentences.length);
});

it('is off at first, encrypts unless told otherwise, and sends no personal details', async () => {
  const shown = await show(OFF);
  expect(shown.get('[role=status]').text()).toBe('Off. Nothing leaves this computer.');
  const [host, port, database, user, password] = shown.findAll('input');
  expect(port?.element.value).toBe('5432');
  await host?.setValue('ledger.example');
  await database?.setValue('shops');
  await user?.setValue('north');
  await password?.setValue(' se cret ');
  desk.answers['ledger.storePassword'] = () => ok({});
  desk.answers['ledger.turnOn'] = () => ok({ branch: 1 });
  await shown.get('form').trigger('submit');
  await flushPromises();
  expect(called('ledger.storePassword')).toEqual([{ password: ' se cret ' }]);
  expect(called('ledger.turnOn')).toEqual([
    {
      host: 'ledger.example', port: 5432, database: 'shops', user: 'north', tls: 'verified', ca: null,
      personal: false,
    },
  ]); // prettier-ignore
});

it('says what a try met, and offers to prepare a database only where that is missing', async () => {
  const shown = await show(OFF);
  desk.answers['ledger.tryIt'] = () => ok({ wrong: 'password' });
  await press(shown, 'Test connection');
  expect(shown.get('[role=alert]').text()).toContain('The database did not accept this user and password.');
  expect(button(shown, 'Prepare database')).toBeUndefined();
  desk.answers['ledger.tryIt'] = () => ok({ wrong: 'not-prepared' });
  await press(shown, 'Test connection');
  desk.answers['ledger.prepare'] = () => ok({ wrong: 'no-rights' });
  await press(shown, 'Prepare database');
  expect(shown.get('[role=alert]').text()).toContain('This user may not write to the ledger.');
  desk.answers['ledger.tryIt'] = () => ok({ wrong: null });
  await press(shown, 'Test connection');
  expect(shown.text()).toContain('Connected. This book can be sent there.');
});

it('puts a refusal at its field', async () => {
  const shown = await show(OFF);
  desk.answers['ledger.tryIt'] = () => ({
    ok: false,
    problem: { kind: 'invalid', code: 'ledger.password', field: 'password' },
  });
  await press(shown, 'Test connection');
  expect(shown.get('.field [role=alert]').text()).toBe('Type the password of the database user.');
});

const MOMENT = '2026-11-24T20:15:00Z';
it.each<[LedgerState, number, RegExp, RegExp | null]>([
  [{ kind: 'off' }, 0, /^Connecting…$/, null],
  [{ kind: 'sending' }, 1, /^On\. Sending/, /1 change is waiting to be sent, the oldest since .*1:15/],
  [{ kind: 'even', at: MOMENT }, 3, /^On\. Everything up to .*1:15.* is in the ledger\.$/, null],
  [{ kind: 'waiting', why: 'unreachable' }, 3, /^On\. It will try again/, /3 changes are waiting to be sent/],
])('tells of %o', async (state, changes, says, waits) => {
  const since = changes > 0 ? MOMENT : null;
  const shown = await show({ ...ON, state, backlog: { changes, since } });
  expect(shown.get('[role=status]').text()).toMatch(says);
  if (waits) expect(shown.text()).toMatch(waits);
  else expect(shown.text()).not.toContain('to be sent');
});

it('goes on as a new branch where the ledger knows something else, and nowhere else', async () => {
  const stopped = (why: 'fork' | 'password'): LedgerView => ({
    ...ON,
    state: { kind: 'stopped', why, detail: '' },
  });
  expect(button(await show(stopped('password')), 'Send this book as a new branch')).toBeUndefined();
  const shown = await show(stopped('fork'));
  expect(shown.get('[role=alert]').text()).toContain('another version of this book');
  desk.answers['ledger.newBranch'] = () => ok({ branch: 2 });
  await press(shown, 'Send this book as a new branch');
  expect(called('ledger.newBranch')).toEqual([{}]);
});

it('asks for the password that stayed on another computer', async () => {
  const shown = await show({ ...ON, hasPassword: false });
  expect(shown.get('[role=alert]').text()).toContain('The password is not on this computer.');
});

it('has nothing to set up in the demo', async () => {
  await openWindow({ demo: true });
  const shown = await show(OFF);
  expect(shown.text()).toContain('The demo season is never sent.');
  expect(shown.find('form').exists()).toBe(false);
});
