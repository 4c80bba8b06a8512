/** A paper in the hunter's language, whose words are fetched when it is opened. */
// @vitest-environment happy-dom
import { flushPromises } from '@vue/test-utils';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import InLanguage from '../../../src/ui/paper/InLanguage.vue';
import { useLanguage } from '../../../src/ui/stores/language.ts';
import { loaders } from '../../../src/words/compiled/languages.ts';
import type { HunterLanguage } from '../../../src/words/hunter-language.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const { qps: arrives } = loaders;
/** The generated language stands for one of a hunter; in a worker of its own, where no other test has fetched it. */
const NOBODYS = 'qps' as HunterLanguage;

beforeEach(async () => {
  await openWindow();
  loaders.qps = () => Promise.reject(new Error('offline'));
});
afterEach(() => void Object.assign(loaders, { qps: arrives }));

it('leaves a window its language where another did not arrive, and says so', async () => {
  const language = useLanguage();
  await language.choose(NOBODYS);
  expect([language.current, language.problem?.code]).toEqual(['en-US', 'words.not-loaded']);
});

it('says that its words did not arrive, and is shown once they do', async () => {
  const paper = mountPart(InLanguage, { props: { of: NOBODYS }, slots: { default: 'The bill' } });
  await flushPromises();
  expect(paper.text()).toContain('This language could not be loaded.');
  expect(paper.text()).not.toContain('The bill');
  loaders.qps = arrives!;
  await paper.get('[role=alert] button').trigger('click');
  await vi.waitFor(() => expect(paper.get('[lang=qps]').text()).toBe('The bill'), 10_000);
  expect(paper.text()).not.toContain('could not be loaded');
});
