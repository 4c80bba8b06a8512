/** The least that the framework takes: a page of one field that says what was typed, in the same browser. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser } from 'playwright-core';
import { handOn, type Act, type Hand } from './hand.ts';
import { installWatch, type Faults } from './on-page.ts';

const PAGE = `<!doctype html><title>Empty</title><main></main><script>VUE</script><script>
const typed = Vue.ref('');
Vue.createApp({
  setup: () => () => [
    Vue.h('input', { onInput: (event) => (typed.value = event.target.value) }),
    Vue.h('output', typed.value),
  ],
}).mount('main');
</script>`;

export async function openEmptyPage(browser: Browser, slowedBy: number, faults: Faults): Promise<Hand> {
  const vue = readFileSync(
    createRequire(import.meta.url).resolve('vue/dist/vue.runtime.global.prod.js'),
    'utf8',
  );
  const page = await browser.newPage();
  await page.addInitScript(installWatch, faults);
  await page.route('http://empty.invalid/', (route) =>
    route.fulfill({ contentType: 'text/html', body: PAGE.replace('VUE', () => vue) }),
  );
  await page.goto('http://empty.invalid/');
  return handOn(page, slowedBy);
}

export function emptyActs({ page }: Hand): Act[] {
  return [
    {
      name: 'a letter in a page of one field (the framework alone)',
      key: 'd',
      barMs: 100,
      async before() {
        await page.locator('input').fill('');
        await page.locator('input').focus();
        return 'd';
      },
      answered: (about) => document.querySelector('output')?.textContent === about,
    },
  ];
}
